// The last step of the build: icons as pixels, and a service worker that knows every file.
//
//   node assemble.mjs DIST

import { createHash } from "node:crypto";
import { readFile, readdir, writeFile } from "node:fs/promises";
import path from "node:path";
import { icon } from "./icon.mjs";

const dist = process.argv[2];

for (const size of [192, 512]) await writeFile(path.join(dist, `icon-${size}.png`), icon(size));

const files = (await readdir(dist, { recursive: true, withFileTypes: true }))
  .filter((entry) => entry.isFile() && entry.name !== "sw.js")
  .map((entry) => path.relative(dist, path.join(entry.parentPath ?? entry.path, entry.name)).split(path.sep).join("/"))
  .sort();
const version = createHash("sha256");
for (const file of files) version.update(file).update(await readFile(path.join(dist, file)));
const worker = await readFile(path.join(dist, "sw.js"), "utf8");
const name = version.update(worker).digest("hex").slice(0, 16);
const kept = ["./", ...files.filter((file) => file !== "index.html" && !file.endsWith(".txt"))];
await writeFile(
  path.join(dist, "sw.js"),
  worker.replace('"unbuilt"', JSON.stringify(name)).replace("const FILES = [];", `const FILES = ${JSON.stringify(kept)};`),
);

console.error(`web/build: version ${name}, ${kept.length} files`);
