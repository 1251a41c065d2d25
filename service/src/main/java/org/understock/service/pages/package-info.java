/** The service's own pages and the widget: static files, and how browsers are to treat them. */
@NullMarked
package org.understock.service.pages;

import org.jspecify.annotations.NullMarked;
