/** Temperatures of a place as they come over the wire, and the series made of them. */
@NullMarked
package org.understock.service.series;

import org.jspecify.annotations.NullMarked;
