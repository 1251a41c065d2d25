/**
 * Reading the evidence over HTTP: crops, stocks, varieties, traits, sources, estimates, records and
 * revisions, all from the snapshot in memory.
 */
@NullMarked
package org.understock.service.catalogue;

import org.jspecify.annotations.NullMarked;
