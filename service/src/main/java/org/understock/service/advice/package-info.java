/**
 * Advice over HTTP: the request is checked and turned into engine values, the engine answers, and
 * its answer is written down.
 */
@NullMarked
package org.understock.service.advice;

import org.jspecify.annotations.NullMarked;
