/** The published contract: what springdoc can't read off the code by itself. */
@NullMarked
package org.understock.service.contract;

import org.jspecify.annotations.NullMarked;
