/**
 * Winters of a place, from temperatures that the asker brings: chill, cold and frost for varieties
 * and stocks.
 */
@NullMarked
package org.understock.service.climate;

import org.jspecify.annotations.NullMarked;
