/**
 * Who pollinates whom: plantings checked as a whole, as JSON and as a picture, and the partners of
 * one variety.
 */
@NullMarked
package org.understock.service.pollination;

import org.jspecify.annotations.NullMarked;
