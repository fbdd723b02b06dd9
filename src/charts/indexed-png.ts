import { deflateSync } from "node:zlib";
import { crc32 } from "./crc32.ts";

/** Red, green, blue, 0 to 255. */
export type Rgb = readonly [red: number, green: number, blue: number];

/**
 * A picture of up to 256 colours as PNG bytes; colour 0 is transparent. `pixels` holds colour numbers
 * row by row from the top. Chunks and filter 0 after PNG (Third Edition), W3C Recommendation 2025,
 * §5 and §9; one IDAT, no ancillary chunk but tRNS, so the same input gives the same bytes.
 */
export function indexedPng(
  pixels: Uint8Array,
  width: number,
  height: number,
  colours: readonly Rgb[],
): Uint8Array {
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header[8] = 8; // bits a pixel
  header[9] = 3; // indexed colour
  const rows = new Uint8Array(height * (width + 1));
  for (let row = 0; row < height; row += 1) {
    rows.set(pixels.subarray(row * width, (row + 1) * width), row * (width + 1) + 1);
  }
  return Buffer.concat([
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
    chunk("IHDR", header),
    chunk("PLTE", Uint8Array.from(colours.flat())),
    chunk("tRNS", Uint8Array.of(0)),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", new Uint8Array(0)),
  ]);
}

export function pngAddress(png: Uint8Array): string {
  return `data:image/png;base64,${Buffer.from(png).toString("base64")}`;
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(12 + data.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, data.length);
  bytes.set(Buffer.from(type, "latin1"), 4);
  bytes.set(data, 8);
  view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)));
  return bytes;
}
