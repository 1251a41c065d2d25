package org.understock.evidence;

import org.understock.trait.Value;

/**
 * One published statement about a trait. Whatever door it comes through (CSV, JSON), it is made by
 * {@link RecordCheck}, so a record that exists has a source, a locator, a known trait, and a value
 * inside the trait's range.
 *
 * @param id stable: made from the content, so the same statement has the same id everywhere
 * @param trait id of the trait
 * @param source id of the source
 * @param locator where in the source: table, page, section
 */
public record TraitRecord(
    String id,
    Subject subject,
    String trait,
    Value value,
    Method method,
    String source,
    String locator,
    Context context,
    String note) {}
