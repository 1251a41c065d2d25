package org.understock.service.limits;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Limits: {@code understock.limits.*}. The defaults are judgements: one client may keep some tenth
 * of a core busy, and a burst of a page that asks many questions passes.
 *
 * @param perMinute what a client may ask in a minute, in units: a read, or advice on a storefront's
 *     list, is one; 0 for no limit
 * @param burst units that may be asked at once; 0 for those of a minute
 * @param clients how many clients are remembered; the rarest askers beyond are forgotten, which
 *     gives them a fresh allowance
 * @param working questions that are worked at in one moment; 0 for four a processor
 * @param patience how long a question waits for its turn before it is sent away
 * @param batches batches that may run at one time
 */
@ConfigurationProperties("understock.limits")
record LimitSettings(
    @DefaultValue("6000") long perMinute,
    @DefaultValue("0") long burst,
    @DefaultValue("20000") int clients,
    @DefaultValue("0") int working,
    @DefaultValue("2s") Duration patience,
    @DefaultValue("8") int batches) {
  private static final int WORKING_A_PROCESSOR = 4;

  LimitSettings {
    atLeast("per-minute", perMinute, 0);
    atLeast("burst", burst, 0);
    atLeast("clients", clients, 1);
    atLeast("working", working, 0);
    atLeast("patience", patience.toMillis(), 0);
    atLeast("batches", batches, 1);
    if (burst == 0) burst = perMinute;
    if (working == 0) working = WORKING_A_PROCESSOR * Runtime.getRuntime().availableProcessors();
  }

  private static void atLeast(String name, long given, long least) {
    if (given < least)
      throw new IllegalArgumentException(
          "understock.limits." + name + " is " + given + ", but must be at least " + least);
  }
}
