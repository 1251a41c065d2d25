/**
 * How much one client may ask, and how much is worked at in one moment: what keeps the service
 * answering all when one asks too much.
 */
@NullMarked
package org.understock.service.limits;

import org.jspecify.annotations.NullMarked;
