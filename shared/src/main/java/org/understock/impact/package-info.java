/** What a change of the evidence does to estimates and advice, and which evidence would do most. */
@NullMarked
package org.understock.impact;

import org.jspecify.annotations.NullMarked;
