/**
 * Who can pollinate whom: S-alleles, ploidy and pollen, self-fertility, species walls and overlap
 * of bloom.
 */
@NullMarked
package org.understock.pollination;

import org.jspecify.annotations.NullMarked;
