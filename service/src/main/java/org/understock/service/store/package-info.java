/**
 * The evidence in PostgreSQL and the compiled snapshots of it. Features read {@link
 * org.understock.service.store.Snapshots}; entities, repositories and the embedded server stay in
 * here.
 */
@NullMarked
package org.understock.service.store;

import org.jspecify.annotations.NullMarked;
