package org.understock.service.contract;

import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.parameters.Parameter;
import io.swagger.v3.oas.models.responses.ApiResponse;
import java.util.Arrays;
import java.util.Objects;
import java.util.Set;
import org.springdoc.core.customizers.GlobalOperationCustomizer;
import org.springframework.http.HttpHeaders;
import org.springframework.stereotype.Component;
import org.springframework.web.method.HandlerMethod;
import org.understock.service.platform.QueryParameters;
import org.understock.wording.Language;

/** Describes the language of the texts, for operations that are worded in the asker's. */
@Component
class ContractLanguages implements GlobalOperationCustomizer {
  @Override
  public Operation customize(Operation operation, HandlerMethod handler) {
    boolean spoken =
        Arrays.stream(handler.getMethodParameters())
            .anyMatch(parameter -> parameter.getParameterType() == Language.class);
    if (!spoken) return operation;
    operation.addParametersItem(
        new Parameter()
            .in("header")
            .name(HttpHeaders.ACCEPT_LANGUAGE)
            .required(false)
            .schema(new Schema<String>().types(Set.of("string")))
            .example("es-ES, es;q=0.9, en;q=0.5")
            .description(
                "Languages of the texts, the dearest first (RFC 9110, section 12.5.4): `en` and `es` are spoken, and anything else is"
                    + " answered in English. Spanish has a decimal comma, or a decimal point for the regions that write one (`es-MX`, `es-419`"
                    + " and others). Names, ids, numbers in fields and problems are the same in every language."));
    operation.addParametersItem(
        new Parameter()
            .in("query")
            .name(QueryParameters.LANG)
            .required(false)
            .schema(
                new Schema<String>()
                    .types(Set.of("string"))
                    .pattern("^[A-Za-z]{2,3}(-[A-Za-z0-9]{1,8})*$"))
            .description(
                "Language of the texts, for a link, which carries no header: `en`, `es`, or a region such as `es-MX`. It goes before"
                    + " `Accept-Language` where both are told; a language that is not spoken is refused."));
    ApiResponse ok = Objects.requireNonNull(operation.getResponses().get("200"));
    ContractFrame.always(
        ok,
        HttpHeaders.CONTENT_LANGUAGE,
        "Language of the texts: `en`, `es`, or `es-419` for Spanish with a decimal point.");
    ContractFrame.always(
        ok, HttpHeaders.VARY, "Names `Accept-Language`: the answer differs by it.");
    return operation;
  }
}
