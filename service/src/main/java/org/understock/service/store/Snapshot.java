package org.understock.service.store;

import org.understock.evidence.TraitBook;

/** One revision, compiled: immutable and shared by all requests. */
public record Snapshot(TraitBook book, Revision revision) {}
