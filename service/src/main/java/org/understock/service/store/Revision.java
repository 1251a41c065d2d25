package org.understock.service.store;

import java.time.Instant;

/**
 * A numbered state of the accepted evidence.
 *
 * @param number 1 and up, without gaps
 * @param digest SHA-256 over the digest of the revision before and what changed, 64 hexadecimal
 *     digits
 * @param note why the revision was made
 * @param records how many records count as of it
 */
public record Revision(long number, String digest, Instant createdAt, String note, long records) {}
