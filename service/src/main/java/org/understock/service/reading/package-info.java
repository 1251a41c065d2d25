/**
 * Reads of the evidence: which revision they see, conditional answers, pages, and the words and
 * problems that they share.
 */
@NullMarked
package org.understock.service.reading;

import org.jspecify.annotations.NullMarked;
