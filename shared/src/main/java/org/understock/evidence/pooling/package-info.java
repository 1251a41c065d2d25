/**
 * From records to estimates: how the published statements about one trait are weighed, joined and
 * graded.
 */
@NullMarked
package org.understock.evidence.pooling;

import org.jspecify.annotations.NullMarked;
