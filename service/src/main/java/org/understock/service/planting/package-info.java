/** Planting plans over HTTP, as JSON and drawn. */
@NullMarked
package org.understock.service.planting;

import org.jspecify.annotations.NullMarked;
