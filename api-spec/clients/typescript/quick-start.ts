import createClient from "openapi-fetch";
import type { paths } from "./target/understock.js";

/** Which stock for a 'Gala' in a small garden? `baseUrl` is such as http://localhost:8080. */
export async function smallGarden(baseUrl: string): Promise<string[]> {
  const understock = createClient<paths>({ baseUrl });
  const { data, error } = await understock.POST("/v1/advice", {
    params: { header: { "Accept-Language": "en" } },
    body: {
      crop: "apple",
      site: { coldestNightC: -18, soil: { drainage: "well-drained" } },
      goal: {
        purpose: "home-garden",
        maxHeightM: 2.5,
        spaceM: { width: 4, length: 6 },
        firstCropWithinYears: 3,
        support: "stake",
      },
      candidates: { varieties: ["gala"] },
      limit: 2,
    },
  });
  if (error) {
    return [error.detail, ...(error.errors ?? []).map((e) => `   ${e.pointer ?? e.parameter} ${e.detail}`)];
  }
  return data.pairings.flatMap((pairing) => [
    `${pairing.rank}. ${pairing.variety.name} on ${pairing.stock.name}, ${pairing.score.toFixed(1)} of 100`,
    ...pairing.reasons.map((reason) => `   ${reason.text}`),
  ]);
}
