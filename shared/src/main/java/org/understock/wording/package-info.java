/**
 * Sentences in the languages that the service speaks. The engine names a sentence by its key and
 * hands over what it is about; the words stand in a file for each language.
 */
@NullMarked
package org.understock.wording;

import org.jspecify.annotations.NullMarked;
