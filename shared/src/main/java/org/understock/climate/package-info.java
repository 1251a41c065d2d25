/**
 * What a site's winters, frosts and season mean for a plant: chill met, cold survived, frost at
 * bloom, fruit ripe in time.
 */
@NullMarked
package org.understock.climate;

import org.jspecify.annotations.NullMarked;
