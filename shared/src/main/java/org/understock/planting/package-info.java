/** Trees on the ground: spacings, numbers per hectare, row volume, light between rows. */
@NullMarked
package org.understock.planting;

import org.jspecify.annotations.NullMarked;
