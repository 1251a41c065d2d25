/**
 * The arithmetic of money over the years: present value, annuity, payback, internal rate, and the
 * prices and costs that an asker gives. Knows nothing of trees.
 */
@NullMarked
package org.understock.economics;

import org.jspecify.annotations.NullMarked;
