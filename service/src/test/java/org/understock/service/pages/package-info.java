/** The pages that explain the answers. */
@NullMarked
package org.understock.service.pages;

import org.jspecify.annotations.NullMarked;
