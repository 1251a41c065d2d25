/** How evidence comes in: proposals, reviews that make revisions, and the trail of who did what. */
@NullMarked
package org.understock.service.curation;

import org.jspecify.annotations.NullMarked;
