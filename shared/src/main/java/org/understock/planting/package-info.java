/**
 * The planting: rows and positions on a plot, pollen partners among them, what to order and to put
 * up.
 */
@NullMarked
package org.understock.planting;

import org.jspecify.annotations.NullMarked;
