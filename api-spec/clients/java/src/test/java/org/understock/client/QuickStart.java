package org.understock.client;

import java.io.IOException;
import java.util.List;
import org.understock.client.api.AdviceApi;
import org.understock.client.model.AdviceRequest;
import org.understock.client.model.AdvisedPairing;
import org.understock.client.model.Candidates;
import org.understock.client.model.Goal;
import org.understock.client.model.Problem;
import org.understock.client.model.ProblemError;
import org.understock.client.model.Site;
import org.understock.client.model.Soil;
import org.understock.client.model.Space;

/** Which stock for a 'Gala' in a small garden? */
public final class QuickStart {
  private QuickStart() {}

  public static void main(String[] arguments) throws IOException {
    ApiClient client = new ApiClient();
    client.updateBaseUri(arguments[0]); // such as http://localhost:8080

    AdviceRequest question = new AdviceRequest().crop(AdviceRequest.CropEnum.APPLE).limit(2);
    question.setSite(
        new Site().coldestNightC(-18.0).soil(new Soil().drainage(Soil.DrainageEnum.WELL_DRAINED)));
    question.setGoal(
        new Goal()
            .purpose(Goal.PurposeEnum.HOME_GARDEN)
            .maxHeightM(2.5)
            .spaceM(new Space().width(4.0).length(6.0))
            .firstCropWithinYears(3.0)
            .support(Goal.SupportEnum.STAKE));
    question.setCandidates(new Candidates().varieties(List.of("gala")));

    try {
      for (AdvisedPairing pairing :
          new AdviceApi(client).advise(question, "en", null).getPairings()) {
        System.out.printf(
            "%d. %s on %s, %.1f of 100%n",
            pairing.getRank(),
            pairing.getVariety().getName(),
            pairing.getStock().getName(),
            pairing.getScore());
        pairing.getReasons().forEach(reason -> System.out.println("   " + reason.getText()));
      }
    } catch (ApiException e) {
      if (e.getCode() == 0) {
        throw new IOException("No answer", e); // the line, not the question
      }
      Problem problem = client.getObjectMapper().readValue(e.getResponseBody(), Problem.class);
      System.out.println(problem.getDetail());
      List<ProblemError> errors = problem.getErrors();
      for (ProblemError error : errors == null ? List.<ProblemError>of() : errors) {
        System.out.println("   " + error.getPointer() + " " + error.getDetail());
      }
    }
  }
}
