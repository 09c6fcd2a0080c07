// The palette against the published measures of contrast and of the distance between colours.
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { projectRoot } from '../../app/kit/root.ts'

type Rgb = [number, number, number]

/** The colours of the style sheet, by name: light, dark. */
function colours(): Map<string, [Rgb, Rgb]> {
  const sheet = readFileSync(join(projectRoot, 'views/static/base.css'), 'utf8')
  const found = [...sheet.matchAll(/--([\w-]+): light-dark\(#([0-9a-f]{6}), #([0-9a-f]{6})\)/g)]
  return new Map(found.map(([, name = '', light = '', dark = '']) => [name, [rgbOf(light), rgbOf(dark)]]))
}

function rgbOf(hex: string): Rgb {
  const at = (from: number) => Number.parseInt(hex.slice(from, from + 2), 16) / 255
  return [at(0), at(2), at(4)]
}

function linear(channel: number): number {
  return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4
}

// Source: WCAG 2.1, definitions of relative luminance and contrast ratio.
function contrast(one: Rgb, other: Rgb): number {
  const [light = 0, dark = 0] = [one, other].map(luminance).sort((a, b) => b - a)
  return (light + 0.05) / (dark + 0.05)
}

function luminance([r, g, b]: Rgb): number {
  return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b)
}

// Source: CIE 1976 L*a*b* from sRGB with the white point D65 (IEC 61966-2-1, from memory).
function lab([r, g, b]: Rgb): Rgb {
  const [lr, lg, lb] = [linear(r), linear(g), linear(b)]
  const x = (0.4124 * lr + 0.3576 * lg + 0.1805 * lb) / 0.95047
  const y = 0.2126 * lr + 0.7152 * lg + 0.0722 * lb
  const z = (0.0193 * lr + 0.1192 * lg + 0.9505 * lb) / 1.08883
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116)
  return [116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))]
}

function distance(one: Rgb, other: Rgb): number {
  const [a, b] = [lab(one), lab(other)]
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])
}

const states = ['conforms', 'does-not-conform', 'marginal', 'not-tested']

describe.each([
  ['light', 0],
  ['dark', 1],
] as const)('the colours by %s', (_, scheme) => {
  const all = colours()
  const colour = (name: string): Rgb => all.get(name)?.[scheme] ?? [Number.NaN, 0, 0]

  // Source: WCAG 2.1, 1.4.3: text has a contrast of 4.5 at least; 1.4.11: a mark that means something of 3.
  test.each([
    ['ink', { paper: 4.5, field: 4.5, band: 4.5 }],
    ['soft', { paper: 4.5, field: 4.5, band: 4.5 }],
    ...states.map((state) => [state, { paper: 4.5, field: 3, band: 3 }] as const),
  ] as const)('%s can be told from what it stands on', (name, grounds) => {
    for (const [ground, least] of Object.entries(grounds))
      expect(contrast(colour(name), colour(ground)), ground).toBeGreaterThan(least)
  })

  test('of two states are never close', () => {
    for (const [i, one] of states.entries())
      for (const other of states.slice(i + 1))
        expect(distance(colour(one), colour(other)), `${one}, ${other}`).toBeGreaterThan(22)
  })
})
