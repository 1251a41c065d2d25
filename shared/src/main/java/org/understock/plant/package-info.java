/** Crops, stocks and varieties, their names and every usual spelling of them. */
@NullMarked
package org.understock.plant;

import org.jspecify.annotations.NullMarked;
