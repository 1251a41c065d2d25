/** What the tests of the service share. */
@NullMarked
package org.understock.service;

import org.jspecify.annotations.NullMarked;
