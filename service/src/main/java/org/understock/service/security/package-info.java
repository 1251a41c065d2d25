/**
 * Who may do what: tokens, the rights under {@code /v1/curation}, and what a browser on another
 * origin may read.
 */
@NullMarked
package org.understock.service.security;

import org.jspecify.annotations.NullMarked;
