/** How big a tree becomes, when it crops, how much and for how long; spacing and density. */
@NullMarked
package org.understock.growth;

import org.jspecify.annotations.NullMarked;
