/**
 * The grower's place and purpose: soil, climate figures, pressures, space and wishes. Units are
 * checked once, here.
 */
@NullMarked
package org.understock.site;

import org.jspecify.annotations.NullMarked;
