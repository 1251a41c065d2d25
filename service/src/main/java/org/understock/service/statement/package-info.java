/**
 * A statement as JSON, one shape in both directions: what curators send and what everybody reads.
 */
@NullMarked
package org.understock.service.statement;

import org.jspecify.annotations.NullMarked;
