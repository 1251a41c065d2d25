package org.understock.service.advice;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.util.function.Supplier;
import org.springframework.stereotype.Component;
import org.understock.service.store.Snapshot;
import org.understock.wording.Language;

/**
 * Answers that were given lately and more than once, by their questions: the pages of a shop ask
 * the same for every visitor who tells nothing of a garden. An answer hangs on the question, the
 * revision of the evidence, the engine and the language alone, so a kept one is the one that would
 * be worked out.
 */
@Component
class LatelyAdvised {
  /** Pairings that all kept answers together tell of; 150 answers of three took 4.7 MB. */
  private static final long MOST_PAIRINGS = 600;

  /** Longer answers are seldom asked for twice, and would push out many short ones. */
  private static final int LONGEST = 60;

  /** Questions that are remembered as asked once, by their hashes alone. */
  private static final int MOST_ASKED_ONCE = 2_000;

  private record Asked(AdviceRequest question, Language language, String revision) {}

  private final Cache<Asked, AdviceResponse> answers =
      Caffeine.newBuilder()
          .maximumWeight(MOST_PAIRINGS)
          .executor(Runnable::run) // what there is to tidy up is less than handing it on
          .weigher((Asked asked, AdviceResponse answer) -> 1 + told(answer))
          .build();

  /*
   * Only what is asked a second time is kept. Were every answer kept, those to questions that never come again would all outlive a young
   * collection, which copies what lives: its pauses doubled, and with them the longest hundredth of all answers.
   */
  private final Cache<Integer, Boolean> askedOnce =
      Caffeine.newBuilder().maximumSize(MOST_ASKED_ONCE).executor(Runnable::run).build();

  private final AdviceMeters meters;

  LatelyAdvised(AdviceMeters meters) {
    this.meters = meters;
  }

  /**
   * The kept answer, or one that is worked out now, and kept where the question was asked before;
   * with the asker's own name for the question. Two who ask the same at one moment may both have it
   * worked out.
   */
  AdviceResponse of(
      AdviceRequest request,
      Language language,
      Snapshot snapshot,
      Supplier<AdviceResponse> workedOut) {
    // Years of measurements are long, and no two gardens share them.
    if (request.site() != null && request.site().temperatures() != null) return workedOut.get();
    Asked asked = new Asked(request.named(null), language, snapshot.revision().digest());
    AdviceResponse lately = answers.getIfPresent(asked);
    if (lately != null) {
      meters.kept();
      return lately.named(request.id());
    }
    AdviceResponse answer = workedOut.get();
    boolean again = askedOnce.asMap().putIfAbsent(asked.hashCode(), true) != null;
    if (again && told(answer) <= LONGEST) answers.put(asked, answer.named(null));
    return answer;
  }

  private static int told(AdviceResponse answer) {
    return answer.pairings().size() + answer.ruledOut().size();
  }
}
