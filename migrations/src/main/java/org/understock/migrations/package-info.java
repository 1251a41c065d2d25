/** The starter evidence, the database schema, and the way from one into the other. */
@NullMarked
package org.understock.migrations;

import org.jspecify.annotations.NullMarked;
