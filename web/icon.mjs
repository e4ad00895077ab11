// The icon as a PNG, from the same shapes as page/icon.svg (in 512ths of its width).

import { crc32, deflateSync } from "node:zlib";

const [BOARD, EDGE, HOLLOW, LINE] = ["b98a55", "a4763f", "d9b483", "3c2a18"];
const [PAPER, RICE, STEW] = ["f7f4ee", "fffaf0", "7c4a2d"];

/** The colour at a point. */
function at(x, y) {
  const [dx, dy] = [x - 256, y - 256];
  const distance = Math.hypot(dx, dy);
  if (Math.abs(distance - 138) <= 4) return LINE;
  if (distance < 138) {
    const angle = Math.atan2(dy, dx);
    if (angle > Math.PI / 6 && angle < (5 * Math.PI) / 6) return STEW;
    return angle > -Math.PI / 2 && angle <= Math.PI / 6 ? RICE : HOLLOW;
  }
  if (distance < 152) return EDGE;
  const corner = Math.hypot(Math.max(Math.abs(dx) - 148, 0), Math.max(Math.abs(dy) - 148, 0));
  return corner <= 36 ? BOARD : PAPER;
}

function chunk(kind, data) {
  const body = Buffer.concat([Buffer.from(kind, "latin1"), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

/** A square PNG; edges are smoothed by taking each pixel at sixteen points. */
export function icon(size) {
  const rows = Buffer.alloc(size * (size * 3 + 1));
  const steps = [0.125, 0.375, 0.625, 0.875];
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      const sum = [0, 0, 0];
      for (const up of steps) {
        for (const across of steps) {
          const colour = at(((column + across) / size) * 512, ((row + up) / size) * 512);
          for (let part = 0; part < 3; part++) sum[part] += parseInt(colour.slice(part * 2, part * 2 + 2), 16);
        }
      }
      sum.forEach((value, part) => (rows[row * (size * 3 + 1) + 1 + column * 3 + part] = Math.round(value / 16)));
    }
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(size, 0);
  head.writeUInt32BE(size, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from("89504e470d0a1a0a", "hex"),
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}
