package org.understock.service.store;

import org.understock.advice.Adviser;
import org.understock.evidence.TraitBook;

/** One revision, compiled: immutable and shared by all requests. */
public record Snapshot(TraitBook book, Adviser adviser, Revision revision) {}
