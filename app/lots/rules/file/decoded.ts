// A file's bytes as text, in whichever of the usual encodings a spreadsheet or a tester wrote them.
import { TextDecoder } from 'node:util'

/**
 * UTF-8, UTF-16 or Windows-1252, with or without a byte order mark. UTF-16 without one is told by the zero bytes of its
 * first two letters. Of the others the first character beyond ASCII decides: a file that begins as UTF-8 stays UTF-8, and
 * what is none further down becomes U+FFFD, which no row may hold: nothing is guessed.
 */
export async function* decoded(bytes: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  let decoder: TextDecoder | undefined
  let held: Uint8Array = new Uint8Array()
  let begun = false
  let first = true // nothing was given on yet
  for await (const chunk of bytes) {
    held = held.length === 0 ? chunk : Buffer.concat([held, chunk])
    if (!begun && held.length < longestSequence) continue
    if (!begun) decoder = wideDecoder(held)
    begun = true
    if (!decoder) {
      const plain = asciiLength(held)
      first &&= plain === 0
      if (plain > 0) yield ascii.decode(held.subarray(0, plain))
      held = held.subarray(plain)
      if (held.length < longestSequence) continue
      decoder = narrowDecoder(held, first)
    }
    yield decoder.decode(held, { stream: true })
    held = new Uint8Array()
  }
  decoder ??= (begun ? undefined : wideDecoder(held)) ?? narrowDecoder(held, first)
  yield decoder.decode(held)
}

/** In bytes, of one character in UTF-8; two letters in UTF-16. */
const longestSequence = 4

const ascii = new TextDecoder('latin1')

function wideDecoder([first, second, third, fourth]: Uint8Array): TextDecoder | undefined {
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le')
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be')
  if (first && second === 0 && third && fourth === 0) return new TextDecoder('utf-16le')
  if (first === 0 && second && third === 0 && fourth) return new TextDecoder('utf-16be')
  return undefined
}

/** By the character that the bytes begin with. A byte order mark is one only where a file begins. */
function narrowDecoder(bytes: Uint8Array, first: boolean): TextDecoder {
  const lead = bytes[0] ?? 0
  const length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc0 ? 2 : 1
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length))
    return new TextDecoder('utf-8', { ignoreBOM: !first })
  } catch {
    return new TextDecoder('windows-1252')
  }
}

function asciiLength(bytes: Uint8Array): number {
  const beyond = bytes.findIndex((byte) => byte > 0x7f)
  return beyond < 0 ? bytes.length : beyond
}
