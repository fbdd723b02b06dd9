/** Text of a file with the name of its encoding. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: "UTF-8" | "UTF-16 LE" | "UTF-16 BE" | "Latin-1";
}

/**
 * Decodes by byte-order mark; without one, UTF-16 LE where every other byte is mostly zero, else UTF-8
 * where it is valid, else Latin-1 (as Windows-1252). Null where the bytes are not text.
 */
export function decodeText(bytes: Uint8Array): DecodedText | null {
  const decoded = decode(bytes);
  return decoded.text.includes("\u0000") ? null : decoded;
}

function decode(bytes: Uint8Array): DecodedText {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return utf16(bytes, "utf-16le", "UTF-16 LE");
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return utf16(bytes, "utf-16be", "UTF-16 BE");
  const sample = Math.min(bytes.length, 2000);
  let zeros = 0;
  for (let i = 1; i < sample; i += 2) if (bytes[i] === 0) zeros += 1;
  if (sample >= 4 && zeros > sample * 0.4) return utf16(bytes, "utf-16le", "UTF-16 LE");
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8" };
  } catch {
    return { text: new TextDecoder("windows-1252").decode(bytes), encoding: "Latin-1" };
  }
}

function utf16(bytes: Uint8Array, label: string, encoding: DecodedText["encoding"]): DecodedText {
  return { text: new TextDecoder(label).decode(bytes), encoding };
}
