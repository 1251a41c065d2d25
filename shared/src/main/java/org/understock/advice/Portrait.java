package org.understock.advice;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.climate.ChillNeed;
import org.understock.evidence.Grade;
import org.understock.evidence.Source;
import org.understock.growth.Part;
import org.understock.growth.SupportNeed;
import org.understock.pollination.BloomTime;
import org.understock.pollination.Partner;
import org.understock.pollination.PartnerNeed;
import org.understock.site.Word;

/**
 * All that is on record of one variety on one stock, whatever the place: what a card to hand out
 * says. It ranks nothing and recommends nothing. What is not known is not left out but named: in
 * {@link Basis}, {@code unrated}, and by empty lists and nulls.
 *
 * @param pairing what is expected of the tree on a middling site, kept by the usual pruning
 * @param union whether the two grow together
 * @param sizeKnown false where the stock's size is not on record and what is expected is only what
 *     is usual in the crop
 * @param support need of support; null where it is neither on record nor to be told from the size
 * @param basis what each expected figure rests on
 * @param ratings what stock and variety bear and suffer from, as far as rated; the firmest first
 *     within a stand
 * @param unrated topics on which other stocks of the crop are rated and this one is not
 * @param cold what is taken to be borne in midwinter: the stock, then the variety
 * @param harvest when the fruit ripens among the varieties of its crop; null when not on record
 * @param chill what the variety needs, in every measure in which that is published
 * @param bloom when it blooms
 * @param pollen whether it needs a partner
 * @param partners varieties whose pollen serves or may serve, the best first
 * @param care what the tree asks of whoever keeps it
 * @param cautions what must be told besides
 * @param notices what goes with any advice of this kind
 * @param sources behind all of it, those that most records come from first
 */
public record Portrait(
    Pairing pairing,
    Union union,
    boolean sizeKnown,
    SupportNeed.@Nullable Level support,
    List<Basis> basis,
    List<Rating> ratings,
    List<String> unrated,
    List<Cold> cold,
    @Nullable Harvest harvest,
    List<ChillNeed> chill,
    BloomTime bloom,
    PartnerNeed pollen,
    List<Partner> partners,
    List<Care> care,
    List<Advice.Caution> cautions,
    List<Advice.Notice> notices,
    List<Source> sources) {

  public Portrait {
    basis = List.copyOf(basis);
    ratings = List.copyOf(ratings);
    unrated = List.copyOf(unrated);
    cold = List.copyOf(cold);
    chill = List.copyOf(chill);
    partners = List.copyOf(partners);
    care = List.copyOf(care);
    cautions = List.copyOf(cautions);
    notices = List.copyOf(notices);
    sources = List.copyOf(sources);
  }

  /** Which of the two a statement is about. */
  public enum Plant implements Word {
    STOCK,
    VARIETY
  }

  /**
   * @param text for people, one to three sentences
   * @param interstem name of the stock or variety to put between, where a source names one
   */
  public record Union(State state, String text, @Nullable String interstem, List<String> records) {
    /** How the union stands, best first. */
    public enum State implements Word {
      /** Reported to hold. */
      HOLDS,
      /** Nothing is reported, and nothing speaks against it. */
      NOTHING_AGAINST,
      /** Nothing is reported of this pairing, but the stock failed under other varieties. */
      NOT_RECORDED,
      /** Reports differ, or speak of failure after years. */
      DOUBTFUL,
      /** Reported to hold only with a piece of another variety between the two. */
      NEEDS_INTERSTEM,
      /** Reported to fail; advice rules the pairing out. */
      FAILS;

      /** Whether whoever reads of the pairing must be told before anything else. */
      public boolean leads() {
        return compareTo(DOUBTFUL) >= 0;
      }
    }

    public Union {
      records = List.copyOf(records);
    }
  }

  /**
   * What an expected figure rests on.
   *
   * @param figure such as {@code height} or {@code first-crop}
   * @param grade of the records; D where there are none
   * @param text for people
   */
  public record Basis(
      String figure, Part.Basis basis, Grade grade, String text, List<String> records) {
    public Basis {
      records = List.copyOf(records);
    }
  }

  /**
   * How the stock or the variety stands to one thing.
   *
   * @param topic such as "wet soil" or "fire blight"
   * @param word what the sources say, such as "good" or "susceptible to resistant"
   * @param sources number of distinct sources
   * @param grade of the estimate
   * @param text a sentence for people
   */
  public record Rating(
      Plant plant,
      String trait,
      String topic,
      Kind kind,
      Stand stand,
      String word,
      int sources,
      Grade grade,
      String text,
      List<String> records) {
    public Rating {
      records = List.copyOf(records);
    }

    /** What the rating is about. */
    public enum Kind implements Word {
      SOIL,
      ROOT,
      WEATHER,
      PEST
    }

    /** Which way the word points. */
    public enum Stand implements Word {
      BEARS,
      MIDDLING,
      SUFFERS
    }
  }

  /**
   * @param lowestC air temperature that is taken to be borne in midwinter; null when not on record
   * @param text a sentence for people
   */
  public record Cold(Plant plant, @Nullable Double lowestC, String text, List<String> records) {
    public Cold {
      records = List.copyOf(records);
    }
  }

  /**
   * @param text such as "mid to mid late among apple varieties, about late September where it was
   *     noted"
   */
  public record Harvest(String text, List<String> records) {
    public Harvest {
      records = List.copyOf(records);
    }
  }

  /**
   * @param topic what it is about
   * @param text a sentence or two for people
   * @param records behind it; empty for common practice
   */
  public record Care(Topic topic, String text, List<String> records) {
    /** In the order in which they come up. */
    public enum Topic implements Word {
      PLANTING,
      SUPPORT,
      WATER,
      PRUNING,
      SUCKERS
    }

    public Care {
      records = List.copyOf(records);
    }
  }
}
