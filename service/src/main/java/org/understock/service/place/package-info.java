/**
 * The grower's place and goal as requests tell them, the same for every feature that asks for them.
 */
@NullMarked
package org.understock.service.place;

import org.jspecify.annotations.NullMarked;
