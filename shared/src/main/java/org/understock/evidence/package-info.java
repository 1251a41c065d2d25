/** Sources, records, and what the records of one revision add up to: estimates. */
@NullMarked
package org.understock.evidence;

import org.jspecify.annotations.NullMarked;
