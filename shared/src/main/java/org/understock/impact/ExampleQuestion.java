package org.understock.impact;

import org.understock.advice.Question;

/**
 * A request that is asked again whenever evidence is about to change.
 *
 * @param id lower-case slug
 * @param title for people
 */
public record ExampleQuestion(String id, String title, Question question) {}
