/** What all endpoints share and none is about: query parameters, request ids, limits. */
@NullMarked
package org.understock.service.platform;

import org.jspecify.annotations.NullMarked;
