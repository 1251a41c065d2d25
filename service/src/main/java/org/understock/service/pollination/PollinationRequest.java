package org.understock.service.pollination;

import io.swagger.v3.oas.annotations.media.Schema;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.understock.plant.Crop;
import org.understock.service.platform.OneOf;

/** A planting whose pollination is asked for. */
@Schema(
    name = "PollinationRequest",
    description = "The varieties of a planting, and what might be added.")
record PollinationRequest(
    @Schema(
            requiredMode = Schema.RequiredMode.REQUIRED,
            description =
                "Ids or usual spellings. Fruits of several kinds may stand in one planting. A variety named twice counts once.")
        @NotNull
        @NotEmpty
        @Size(max = 30)
        List<@NotNull @Size(min = 1, max = 100) String> varieties,
    @Schema(
            description =
                "Read all spellings as varieties of this crop. Needed only for a name that several crops have, and that the other"
                    + " varieties do not settle.")
        @OneOf(Crop.class)
        @Nullable String crop,
    @Schema(
            description =
                "Suggest only out of these, such as what a nursery has; out of the whole catalogue when it is left out.")
        @Size(max = 1000)
        @Nullable List<@NotNull @Size(min = 1, max = 100) String> from,
    @Schema(
            description =
                "Answer as of this revision of the evidence; the latest when it is left out.")
        @Min(1)
        @Nullable Long revision,
    @Schema(description = "Most options to suggest for each kind of fruit.", defaultValue = "5")
        @Min(0)
        @Max(20)
        @Nullable Integer limit) {}
