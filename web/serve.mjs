// A static server for trying the page on this machine: node serve.mjs FOLDER [PORT]. Any other
// will do as well.

import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { createServer } from "node:http";
import path from "node:path";

const KINDS = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
  ".txt": "text/plain; charset=utf-8",
};

/** Serves a folder on this machine alone; resolves with the server once it listens. */
export function serve(folder, port) {
  const root = path.resolve(folder);
  const server = createServer(async (request, response) => {
    try {
      const asked = decodeURIComponent(new URL(request.url, "http://localhost").pathname);
      const file = path.join(root, asked.endsWith("/") ? `${asked}index.html` : asked);
      if (!file.startsWith(root + path.sep) || !(await stat(file)).isFile()) throw new Error("no such file");
      response.writeHead(200, { "content-type": KINDS[path.extname(file)] ?? "application/octet-stream", "cache-control": "no-cache" });
      createReadStream(file).pipe(response);
    } catch {
      response.writeHead(404, { "content-type": "text/plain" }).end("no such file\n");
    }
  });
  return new Promise((resolve, reject) => {
    server.on("error", reject);
    server.listen(port, "127.0.0.1", () => resolve(server));
  });
}

if (process.argv[1] === import.meta.filename) {
  const [folder = "dist", port = "8017"] = process.argv.slice(2);
  await serve(folder, Number(port));
  console.log(`the page is at http://localhost:${port}/ (end with Ctrl-C)`);
}
