// The engine's SHA-256 against the standard's examples and against the machine's library.
import { hash } from 'node:crypto'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { machineSha256 } from '../../app/kit/sha256.ts'
import { drawUnits } from '../../app/statistics/draw.ts'
import { sha256 } from '../../app/statistics/sha256.ts'

const hex = (text: string) => [...sha256(text)].map((word) => word.toString(16).padStart(8, '0')).join('')

describe('SHA-256', () => {
  // Source: NIST, Examples with Intermediate Values for FIPS 180-4 (one block, two blocks); FIPS 180-2, appendix B.3 (a million).
  test.each([
    ['abc', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['the empty message', '', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    [
      'two blocks',
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    ['a million letters', 'a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
  ])('of %s', (_name, text, expected) => {
    expect(hex(text)).toBe(expected)
  })

  test('is that of the machine for every length around the blocks, and any text', () => {
    for (let length = 0; length <= 200; length++)
      expect(hex('é'.repeat(length))).toBe(hash('sha256', 'é'.repeat(length)))
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => hex(text) === hash('sha256', text)))
    expect(hex('a\ud800b')).toBe(hash('sha256', 'a\ud800b'))
  })

  test('draws the same units as the machine’s, to the last of the lot', () => {
    for (const [lotSize, sampleSize] of [
      [876, 47],
      [997, 997],
      [1_000_000, 300],
    ] as const) {
      const draw = { lotSize, sampleSize, seed: 'dock 4, 17 March' }
      expect(drawUnits(draw, machineSha256)).toEqual(drawUnits(draw))
    }
  })
})
