package org.understock.service.advice;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;

/**
 * Answers that were given lately, by their questions: the pages of a shop ask the same for every
 * visitor who tells nothing of a garden. An answer hangs on the question, the revision of the
 * evidence, the engine and the language alone, so a kept one is the one that would be worked out.
 */
@Component
class LatelyAdvised {
  /** Pairings that all kept answers together tell of; 150 answers of three took 4.7 MB. */
  private static final long MOST_PAIRINGS = 600;

  /** Longer answers are seldom asked for twice, and would push out many short ones. */
  private static final int LONGEST = 60;

  private record Asked(AdviceRequest question, Language language, String revision) {}

  private final Cache<Asked, AdviceResponse> answers =
      Caffeine.newBuilder()
          .maximumWeight(MOST_PAIRINGS)
          .executor(Runnable::run) // what there is to tidy up is less than handing it on
          .weigher((Asked asked, AdviceResponse answer) -> 1 + told(answer))
          .build();

  private final AdviceMeters meters;

  LatelyAdvised(AdviceMeters meters) {
    this.meters = meters;
  }

  /** The answer with the asker's own name for the question; empty when it is not kept. */
  Optional<AdviceResponse> find(AdviceRequest request, Language language, Snapshot snapshot) {
    Asked asked = asked(request, language, snapshot);
    AdviceResponse answer = asked == null ? null : answers.getIfPresent(asked);
    if (answer == null) return Optional.empty();
    meters.kept();
    return Optional.of(answer.named(request.id()));
  }

  void keep(AdviceRequest request, Language language, Snapshot snapshot, AdviceResponse answer) {
    Asked asked = asked(request, language, snapshot);
    if (asked != null && told(answer) <= LONGEST) answers.put(asked, answer.named(null));
  }

  private static int told(AdviceResponse answer) {
    return answer.pairings().size() + answer.ruledOut().size();
  }

  /** Null for one that brings years of measurements: it is long, and no two gardens share it. */
  private static @Nullable Asked asked(
      AdviceRequest request, Language language, Snapshot snapshot) {
    boolean measured = request.site() != null && request.site().temperatures() != null;
    return measured ? null : new Asked(request.named(null), language, snapshot.revision().digest());
  }
}
