/** Weighs every candidate pairing against a site and a goal, with its uncertainty, and says why. */
@NullMarked
package org.understock.advice;

import org.jspecify.annotations.NullMarked;
