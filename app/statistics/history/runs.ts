// Run rules: patterns of points that a process in control seldom makes, and how seldom.
import { expectedSteps } from '../chain.ts'
import { count, finite, openProbability, probability } from '../check.ts'
import * as binomial from '../distributions/binomial.ts'
import * as normal from '../distributions/normal.ts'

/**
 * The four rules of the Western Electric handbook (1956). A rule speaks only at a point that lies in its zone itself; on the centre
 * line a point is on neither side.
 */
export const runRules = [
  'one beyond three sigmas',
  'two of three beyond two sigmas',
  'four of five beyond one sigma',
  'eight in a row on one side',
] as const
export type RunRule = (typeof runRules)[number]

/** Where a rule speaks: which point, from 0, and on which side of the centre line. */
export type RunSignal = { readonly at: number; readonly rule: RunRule; readonly side: 'above' | 'below' }

/**
 * Every place where a rule speaks. The memory runs on after a signal, so one shift may signal at several points.
 *
 * @param points in sigmas from the centre line, see `sigmasFrom`
 * @throws RangeError that names a point that is no finite number
 */
export function runSignals(points: readonly number[], rules: readonly RunRule[] = runRules): RunSignal[] {
  let memory = nothing
  return points.flatMap((point, at) => {
    finite(`points[${at}]`, point)
    const next = after(memory, zoneOf(point), rules)
    memory = next.memory
    return next.spoken.map((rule) => ({ at, rule, side: point > 0 ? ('above' as const) : ('below' as const) }))
  })
}

/**
 * How many sigmas a lot's count lies from a fraction in control: (found − np)/√(np(1 − p)).
 *
 * @param fraction in control, above 0 and below 1
 * @throws RangeError that names the argument, a lot without tests among them
 */
export function sigmasFrom(fraction: number, { sampleSize, found }: { sampleSize: number; found: number }): number {
  openProbability('fraction', fraction)
  count('sampleSize', sampleSize, 1)
  count('found', found, 0, sampleSize)

  return (found - sampleSize * fraction) / Math.sqrt(sampleSize * fraction * (1 - fraction))
}

/**
 * Points until the first rule speaks, on average, by the exact chain of what the rules remember.
 *
 * @param zones chance of each zone, from `normalZones` or `countZones`
 *
 * Source: C. W. Champ and W. H. Woodall (1987), Technometrics 29, 393–399 (from memory).
 *
 * @example runRuleLength(runRules, normalZones(0)) // 91.75: all four rules alarm falsely every 92 points
 */
export function runRuleLength(rules: readonly RunRule[], zones: Zones): number {
  const states = [nothing]
  const indexes = new Map([[keyOf(nothing), 0]])
  const moves: { from: number; to: number; chance: number }[] = []
  const ends: { from: number; chance: number }[] = []
  for (let from = 0; from < states.length; from++)
    for (const [zone, chance] of zones) {
      if (chance === 0) continue
      const { memory, spoken } = after(states[from]!, zone, rules)
      if (spoken.length > 0) {
        ends.push({ from, chance })
        continue
      }
      const key = keyOf(memory)
      const to = indexes.get(key) ?? states.push(memory) - 1
      indexes.set(key, to)
      moves.push({ from, to, chance })
    }
  const size = states.length
  const step = new Float64Array(size * size)
  const end = new Float64Array(size)
  for (const { from, to, chance } of moves) step[from * size + to]! += chance
  for (const { from, chance } of ends) end[from]! += chance
  return expectedSteps({ size, step, end, down: size - 1 })[0]!
}

/** Chance of each zone. */
export type Zones = ReadonlyMap<Zone, number>

/** Zones of normal points whose mean is `shift` sigmas above the centre line; throws RangeError unless it is finite. */
export function normalZones(shift: number): Zones {
  finite('shift', shift)

  return new Map(
    [1, 2, 3, 4].flatMap((level) => [[level, inZone(level, shift)] as const, [-level, inZone(level, -shift)] as const]),
  )
}

/**
 * Zones of a lot's count: charted against the fraction in control, drawn from a process with another, or the same.
 *
 * @param sampleSize units tested of each lot, from 1 to 1,000,000: every count is looked at
 * @param inControl above 0 and below 1
 * @param fraction from 0 to 1
 * @throws RangeError that names the argument out of range
 */
export function countZones(chart: { sampleSize: number; inControl: number; fraction: number }): Zones {
  const { sampleSize, inControl, fraction } = chart
  count('sampleSize', sampleSize, 1, 1_000_000)
  openProbability('inControl', inControl)
  probability('fraction', fraction)

  const zones = new Map<Zone, number>()
  for (let found = 0; found <= sampleSize; found++) {
    const zone = zoneOf(sigmasFrom(inControl, { sampleSize, found }))
    zones.set(zone, (zones.get(zone) ?? 0) + binomial.density(found, { sampleSize, fraction }))
  }
  return zones
}

/** 1 … 4 above the centre line: beyond it, beyond one sigma, two, three; the same below it negative; 0 on the centre line. */
export type Zone = number

/** Zone of a point, strictly beyond; what rounding puts a hair past a line lies on it. */
function zoneOf(sigmas: number): Zone {
  const passed = [0, 1, 2, 3].filter((line) => Math.abs(sigmas) > line + 1e-9).length
  return sigmas < 0 ? -passed : passed
}

/** Chance of a normal point in a zone above the centre line, taken from the nearer tail. */
function inZone(level: number, shift: number): number {
  const [from, to] = [level - 1 - shift, level - shift]
  if (level === 4) return normal.moreThan(from)
  return from > 0 ? normal.moreThan(from) - normal.moreThan(to) : normal.atMost(to) - normal.atMost(from)
}

/** What one side remembers: beyond two sigmas in the last two points, beyond one in the last four, and the run, as bits and a count. */
type Side = { readonly two: number; readonly one: number; readonly run: number }
type Memory = { readonly above: Side; readonly below: Side }

const nothing: Memory = { above: { two: 0, one: 0, run: 0 }, below: { two: 0, one: 0, run: 0 } }

function after(memory: Memory, zone: Zone, rules: readonly RunRule[]): { memory: Memory; spoken: RunRule[] } {
  const above = afterOnSide(memory.above, zone, rules)
  const below = afterOnSide(memory.below, -zone, rules)
  return { memory: { above: above.side, below: below.side }, spoken: [...above.spoken, ...below.spoken] }
}

function afterOnSide(side: Side, level: number, rules: readonly RunRule[]): { side: Side; spoken: RunRule[] } {
  const run = level >= 1 ? side.run + 1 : 0
  const holds: Record<RunRule, boolean> = {
    'one beyond three sigmas': level >= 4,
    'two of three beyond two sigmas': level >= 3 && side.two > 0,
    'four of five beyond one sigma': level >= 2 && bits(side.one) >= 3,
    'eight in a row on one side': run >= 8,
  }
  const remembers = (rule: RunRule, value: number) => (rules.includes(rule) ? value : 0)
  return {
    side: {
      two: remembers('two of three beyond two sigmas', ((side.two << 1) | Number(level >= 3)) & 3),
      one: remembers('four of five beyond one sigma', ((side.one << 1) | Number(level >= 2)) & 15),
      run: remembers('eight in a row on one side', Math.min(7, run)),
    },
    spoken: rules.filter((rule) => holds[rule]),
  }
}

function bits(mask: number): number {
  return (mask & 1) + ((mask >> 1) & 1) + ((mask >> 2) & 1) + ((mask >> 3) & 1)
}

function keyOf({ above, below }: Memory): string {
  return [above.two, above.one, above.run, below.two, below.one, below.run].join()
}
