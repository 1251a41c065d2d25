/** From CSV files to checked records: the catalogue, the sources, and each kind of statement, with every refused row named by line and column. */
@NullMarked
package org.understock.evidence.reading;

import org.jspecify.annotations.NullMarked;
