// Reads rendered manifests from standard input; holds each to the schema that Kubernetes publishes for its kind, unknown fields included, and to a few rules of ours.
import { execFileSync } from "node:child_process";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import * as yaml from "js-yaml";

const require = createRequire(import.meta.url);
const problems = [];
const kinds = [];
const typed = [];
for (const manifest of yaml.loadAll(readFileSync(0, "utf8")).filter(Boolean)) {
  const name = `${manifest.kind}/${manifest.metadata?.name}`;
  kinds.push(manifest.kind);
  const wrong = (what) => problems.push(`${name}: ${what}`);
  const [group, version] = manifest.apiVersion.includes("/") ? manifest.apiVersion.split("/") : [null, manifest.apiVersion];
  if (group?.endsWith("coreos.com")) continue; // an extension's kind: no schema here
  const module = `kubernetes-models/${group ? group + "/" : ""}${version}/${manifest.kind}`;
  let Model;
  try {
    Model = require(module)[manifest.kind];
  } catch {
    wrong("no such kind");
    continue;
  }
  try {
    new Model(manifest).validate();
  } catch (e) {
    wrong(e.message);
  }
  // The schemas pass over unknown fields; the types, given a literal, don't.
  const n = typed.length;
  typed.push(`import { I${manifest.kind} as T${n} } from "${module}"; export const m${n}: T${n} = ${JSON.stringify(manifest)};`);
  const pod = manifest.spec?.template?.spec;
  if (!pod) continue;
  if (!pod.securityContext?.runAsNonRoot) wrong("may run as root");
  if (pod.automountServiceAccountToken !== false) wrong("gets a token of the cluster");
  for (const container of pod.containers) {
    const security = container.securityContext ?? {};
    if (!security.readOnlyRootFilesystem || security.allowPrivilegeEscalation !== false) wrong(`${container.name}: not locked down`);
    if (String(security.capabilities?.drop) !== "ALL") wrong(`${container.name}: keeps capabilities`);
    if (!container.resources?.requests?.memory || !container.resources?.limits?.memory) wrong(`${container.name}: memory not bounded`);
    for (const variable of container.env ?? []) if (/PASSWORD$/.test(variable.name)) wrong(`${variable.name}: a secret in the environment`);
    const volumes = new Set(pod.volumes.map((v) => v.name));
    for (const mount of container.volumeMounts ?? []) if (!volumes.has(mount.name)) wrong(`mounts ${mount.name}, which is not there`);
    const ports = new Set((container.ports ?? []).map((p) => p.name));
    for (const probe of ["startupProbe", "livenessProbe", "readinessProbe"])
      if (container[probe] && !ports.has(container[probe].httpGet.port)) wrong(`${probe} asks a port that is not there`);
  }
}
const literals = fileURLToPath(new URL("rendered.ts", import.meta.url));
try {
  writeFileSync(literals, typed.join("\n"));
  execFileSync(process.execPath, [fileURLToPath(new URL("node_modules/typescript/bin/tsc", import.meta.url)), "--noEmit", "--strict", "--skipLibCheck", "--module", "nodenext", "--moduleResolution", "nodenext", literals], { encoding: "utf8" });
} catch (e) {
  problems.push(e.stdout || String(e));
} finally {
  rmSync(literals, { force: true });
}
if (kinds.length < 5) problems.push(`only ${kinds.length} manifests`);
problems.forEach((p) => console.error(p));
console.log(`${kinds.length} manifests (${kinds.join(", ")}), ${problems.length} problems`);
process.exit(problems.length ? 1 : 0);
