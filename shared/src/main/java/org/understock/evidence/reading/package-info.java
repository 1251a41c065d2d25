/**
 * From CSV files to checked records and back: the catalogue, the sources, and each kind of
 * statement, with every refused row named by line and column. Files are read and written row by
 * row, so that their length costs no memory.
 */
@NullMarked
package org.understock.evidence.reading;

import org.jspecify.annotations.NullMarked;
