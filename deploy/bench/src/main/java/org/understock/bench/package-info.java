/** Benchmarks: run by hand, see the module's README. */
@NullMarked
package org.understock.bench;

import org.jspecify.annotations.NullMarked;
