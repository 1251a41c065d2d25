package org.understock.evidence.reading;

import java.util.regex.Pattern;
import org.understock.evidence.Method;
import org.understock.evidence.Source;

/**
 * The evidence tag of a statement, from the kind of its source and what is known of the trial.
 *
 * <ul>
 *   <li>source {@code memory}: from-memory; source {@code common-practice}: common-practice;
 *   <li>a trial mean: replicated-multi-site when it is a mean over sites or its trial stood on more
 *       than one site, else replicated-single-site;
 *   <li>another statement of a peer-reviewed trial or a data set: replicated-multi-site when title
 *       or note speak of several sites, states, countries, site-years or the NC-140 project (whose
 *       plantings stand in several states), else replicated-single-site;
 *   <li>a breeder's release or patent: breeder-statement;
 *   <li>reviews, bulletins, handbooks: expert-rating.
 * </ul>
 *
 * The rule is a judgement; a file may give the tag itself in a column {@code method}.
 */
final class MethodRule {
  private static final Pattern SEVERAL_SITES =
      Pattern.compile(
          "\\b(sites|site-years|multi-site|locations|states|countries|NC-140|\\d+ trials)\\b",
          Pattern.CASE_INSENSITIVE);

  private MethodRule() {}

  static Method ofTrialMean(Source source, boolean severalSites) {
    if (source.kind().equals("memory")) return Method.FROM_MEMORY;
    return severalSites ? Method.REPLICATED_MULTI_SITE : Method.REPLICATED_SINGLE_SITE;
  }

  static Method ofStatement(Source source, String note) {
    return switch (source.kind()) {
      case "memory" -> Method.FROM_MEMORY;
      case "common-practice" -> Method.COMMON_PRACTICE;
      case "breeder-release" -> Method.BREEDER_STATEMENT;
      case "peer-reviewed-trial", "dataset" ->
          SEVERAL_SITES.matcher(source.title() + ' ' + source.note() + ' ' + note).find()
              ? Method.REPLICATED_MULTI_SITE
              : Method.REPLICATED_SINGLE_SITE;
      default -> Method.EXPERT_RATING;
    };
  }
}
