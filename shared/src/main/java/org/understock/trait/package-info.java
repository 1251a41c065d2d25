/**
 * What can be said about a plant: traits with their scales, units and ranges, and the values that
 * records give them.
 */
@NullMarked
package org.understock.trait;

import org.jspecify.annotations.NullMarked;
