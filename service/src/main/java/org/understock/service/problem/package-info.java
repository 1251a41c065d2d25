/** Everything that can go wrong with a request, told as RFC 9457 problem details in one place. */
@NullMarked
package org.understock.service.problem;

import org.jspecify.annotations.NullMarked;
