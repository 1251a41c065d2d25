/**
 * Pictures as SVG: a small writer, colours that colour-blind people tell apart, and which form of
 * an answer is wanted.
 */
@NullMarked
package org.understock.service.drawing;

import org.jspecify.annotations.NullMarked;
