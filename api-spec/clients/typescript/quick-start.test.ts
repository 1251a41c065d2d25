// The quick start of the README, against a server that replays the contract's examples.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createServer, type IncomingMessage } from "node:http";
import type { AddressInfo } from "node:net";
import { test } from "node:test";
import { smallGarden } from "./quick-start.js";
import type { components } from "./target/understock.js";

// The compiled test runs in target/run.
const here = new URL("../../", import.meta.url);

interface Example<Answer> {
  request: { body: unknown };
  response: { status: number; body: Answer };
}

interface Asked {
  line: string;
  language: string | undefined;
  body: unknown;
}

async function example<Answer>(name: string): Promise<Example<Answer>> {
  return JSON.parse(await readFile(new URL(`../../examples/advise/${name}.json`, here), "utf8"));
}

async function bodyOf(request: IncomingMessage): Promise<unknown> {
  let text = "";
  for await (const part of request.setEncoding("utf8")) text += part;
  return JSON.parse(text);
}

/** Asks a server that gives the example's answer; tells what came back and what it was asked. */
async function ask(replayed: Example<unknown>): Promise<{ told: string[]; asked: Asked }> {
  let asked: Asked | undefined;
  const server = createServer(async (request, answer) => {
    asked = {
      line: `${request.method} ${request.url}`,
      language: request.headers["accept-language"],
      body: await bodyOf(request),
    };
    const { status, body } = replayed.response;
    answer.writeHead(status, { "Content-Type": status < 300 ? "application/json" : "application/problem+json" });
    answer.end(JSON.stringify(body));
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  try {
    const told = await smallGarden(`http://127.0.0.1:${(server.address() as AddressInfo).port}`);
    assert.ok(asked, "nothing was asked");
    return { told, asked };
  } finally {
    server.close();
    server.closeAllConnections();
  }
}

test("asks what the example asks and tells its answer", async () => {
  const replayed = await example<components["schemas"]["Advice"]>("small-garden");

  const { told, asked } = await ask(replayed);

  assert.deepEqual(asked, { line: "POST /v1/advice", language: "en", body: replayed.request.body });
  const first = replayed.response.body.pairings[0];
  assert.ok(first);
  assert.equal(told[0], `1. ${first.variety.name} on ${first.stock.name}, ${first.score.toFixed(1)} of 100`);
  assert.equal(told[1], `   ${first.reasons[0]?.text}`);
});

test("tells what is wrong field by field", async () => {
  const { told } = await ask(await example("out-of-range"));

  assert.deepEqual(told, [
    "2 values can't be used.",
    "   #/site/latitude must be between -66 and 66",
    "   #/site/soil/ph must be between 3 and 10",
  ]);
});

test("stands in the README", async () => {
  const source = await readFile(new URL("quick-start.ts", here), "utf8");

  assert.ok((await readFile(new URL("../README.md", here), "utf8")).includes("```ts\n" + source + "```"));
});

// What the contract refuses, the compiler refuses: without an error below, the type check fails.
export const refused: components["schemas"]["AdviceRequest"][] = [
  // @ts-expect-error a field that is misspelt
  { goal: { maxHeigthM: 2.5 } },
  // @ts-expect-error a value that is none of the list
  { crop: "appel" },
  // @ts-expect-error a text where a number belongs
  { site: { coldestNightC: "-18" } },
];
