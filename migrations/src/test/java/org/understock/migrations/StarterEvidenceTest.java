package org.understock.migrations;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class StarterEvidenceTest {
  @Test
  void loads() {
    StarterEvidence starter = StarterEvidence.read();
    System.out.println(starter.report().details());
    assertThat(starter.report().refused()).isEmpty();
  }
}
