import { inflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { crc32 } from "../../src/charts/crc32.ts";
import { indexedPng } from "../../src/charts/indexed-png.ts";

/** Chunks of a PNG: 4 bytes length, 4 type, data, 4 CRC (PNG Third Edition, §5.3). */
function chunksOf(png: Uint8Array) {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  const chunks: { type: string; data: Uint8Array; crc: number; computed: number }[] = [];
  for (let at = 8; at < png.length; ) {
    const length = view.getUint32(at);
    const body = png.subarray(at + 4, at + 8 + length);
    chunks.push({
      type: Buffer.from(body.subarray(0, 4)).toString("latin1"),
      data: body.subarray(4),
      crc: view.getUint32(at + 8 + length),
      computed: crc32(body),
    });
    at += 12 + length;
  }
  return chunks;
}

describe("crc32", () => {
  it("gives the check value CBF43926 for 123456789 (catalogue of parametrised CRC algorithms, from memory)", () => {
    expect(crc32(Buffer.from("123456789")).toString(16)).toBe("cbf43926");
  });
  it("gives AE426082 for an IEND chunk, as every PNG file ends", () => {
    expect(crc32(Buffer.from("IEND")).toString(16)).toBe("ae426082");
  });
});

describe("indexedPng", () => {
  const png = indexedPng(Uint8Array.of(0, 1, 2, 2, 1, 0), 3, 2, [
    [0, 0, 0],
    [255, 0, 0],
    [0, 0, 255],
  ]);
  it("begins with the signature 137 80 78 71 13 10 26 10 (PNG Third Edition, §5.2)", () => {
    expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
  });
  it("writes header, palette, transparency, data and end with right checksums", () => {
    const chunks = chunksOf(png);
    expect(chunks.map((chunk) => chunk.type)).toEqual(["IHDR", "PLTE", "tRNS", "IDAT", "IEND"]);
    for (const chunk of chunks) expect(chunk.computed).toBe(chunk.crc);
    expect([...chunks[0]!.data]).toEqual([0, 0, 0, 3, 0, 0, 0, 2, 8, 3, 0, 0, 0]);
    expect([...chunks[1]!.data]).toEqual([0, 0, 0, 255, 0, 0, 0, 0, 255]);
  });
  it("gives back the rows when unpacked", () => {
    expect([...inflateSync(chunksOf(png)[3]!.data)]).toEqual([0, 0, 1, 2, 0, 2, 1, 0]);
  });
});
