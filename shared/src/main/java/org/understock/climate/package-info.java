/** What a site's winter, frosts and season mean for a plant: chill met, cold survived, fruit ripe in time. */
@NullMarked
package org.understock.climate;

import org.jspecify.annotations.NullMarked;
