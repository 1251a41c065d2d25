/**
 * The card of a pairing, to hand out or to hang on the tree: as JSON, as a page that prints on one
 * sheet, as a picture, and as tags, several to a sheet.
 */
@NullMarked
package org.understock.service.card;

import org.jspecify.annotations.NullMarked;
