/** The application: starts Spring Boot; each feature lives in a package of its own below. */
@NullMarked
package org.understock.service;

import org.jspecify.annotations.NullMarked;
