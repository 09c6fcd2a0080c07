// Whether lots can be of one process, judged by how their tests ended, each under its own rule of stopping.
import { TooManySteps } from '../steps.ts'
import { checkRules, endingsOfLot, type LotEnding, type LotUnderRule, type Totals } from './endings.ts'

/** What the lots after a point can still come to with the same totals: logarithms of products of arrangements. */
type Ahead = { most: number; least: number; all: number }

/** Outcomes of the lots so far whose products are equal: the logarithm of one product, and how many there are. */
type Alike = { product: number; outcomes: number }

const mostSteps = 20_000_000
/** Products within this share of each other count as equally probable, so that rounding parts none that are. */
const equal = 1e-7

/**
 * Exact p-value for "all lots are of one process, unit after unit independent", given both totals: what was found and what was
 * tested in all lots together. Given these the unknown fraction drops out, and the chance of an outcome is proportional to
 * the product of its lots' arrangements: C(n, found) of a lot that was finished, C(tested − 1, r − 1) of one that stopped at its r-th.
 *
 * A large value is no sign that lots are alike. Where every lot stops at its first nonconforming unit all outcomes are equally
 * probable and the value is 1, whatever was found: of such lots it says nothing.
 *
 * @param lots n units from 1, how many were tested, how many of them found
 * @param most steps that it may take: outcomes looked at
 * @returns sum of the chances of all outcomes that are no more probable than this one
 * @throws RangeError that names the lot and the count that cannot be; TooManySteps where there are too many outcomes to go through
 *
 * Formula: a shortest-path walk over the lots that keeps equal products together and settles at once those that can only end
 * below, or only above, the observed one. Source: G. H. Freeman & J. H. Halton (1951), Biometrika 38, 141–149, for finished lots;
 * C. R. Mehta & N. R. Patel (1983), JASA 78, 427–434, for the walk (both from memory).
 *
 * @example homogeneityOfLots([{ sampleSize: 60, tested: 60, found: 0 }, { sampleSize: 60, tested: 60, found: 6 }]) // 0.02741
 */
export function homogeneityOfLots(lots: readonly LotUnderRule[], most = mostSteps): number {
  checkRules(lots)
  const totals = { tested: sumOf(lots, 'tested'), found: sumOf(lots, 'found') }
  const inOrder = [...lots].sort((one, other) => other.sampleSize - one.sampleSize)
  const endings = inOrder.map((lot) => endingsOfLot(lot, totals))
  const observed = inOrder.reduce((sum, lot) => sum + arrangementsOf(lot), 0)

  const steps = stepsUpTo(most)
  const ahead = aheadOf(endings, totals, steps)
  return chanceUpTo(observed + equal, { endings, totals, ahead, steps })
}

/**
 * The least chance that lots with the same rules and totals could show at all, or less: where it is above the level of a test, that
 * test cannot tell such lots apart, whatever was found.
 *
 * @param lots, most and what is thrown: as for `homogeneityOfLots`
 * @example leastChanceOfLots([{ sampleSize: 60, tested: 60, found: 0 }, { sampleSize: 60, tested: 60, found: 1 }]) // 0.5
 */
export function leastChanceOfLots(lots: readonly LotUnderRule[], most = mostSteps): number {
  checkRules(lots)
  const totals = { tested: sumOf(lots, 'tested'), found: sumOf(lots, 'found') }
  const ahead = aheadOf(
    lots.map((lot) => endingsOfLot(lot, totals)),
    totals,
    stepsUpTo(most),
  )
  const { least, all } = ahead[0]!.get(keyOf(totals, totals))!
  return Math.exp(least - all)
}

function sumOf(lots: readonly LotUnderRule[], name: 'tested' | 'found'): number {
  return lots.reduce((sum, lot) => sum + lot[name], 0)
}

function arrangementsOf(lot: LotUnderRule): number {
  const own = endingsOfLot(lot, lot).find(({ tested, found }) => tested === lot.tested && found === lot.found)
  if (!own) throw new RangeError(`lots must end as their rules allow, not ${lot.found} found in ${lot.tested}`)
  return own.arrangements
}

function keyOf({ tested, found }: Totals, of: Totals): number {
  return tested * (of.found + 1) + found
}

/** For each number of lots left, what they can come to from each pair of totals left to them; the last entry is of no lot. */
function aheadOf(endings: readonly LotEnding[][], totals: Totals, step: () => void): Map<number, Ahead>[] {
  let behind = new Map<number, Ahead>([[0, { most: 0, least: 0, all: 0 }]])
  const ahead = [behind]
  for (const own of endings.toReversed()) {
    const here = new Map<number, Ahead>()
    for (const [key, after] of behind)
      for (const { tested, found, arrangements } of own) {
        step()
        const left = {
          tested: Math.floor(key / (totals.found + 1)) + tested,
          found: (key % (totals.found + 1)) + found,
        }
        if (left.tested > totals.tested || left.found > totals.found) continue
        const at = keyOf(left, totals)
        here.set(at, joined(here.get(at), after, arrangements))
      }
    ahead.unshift(here)
    behind = here
  }
  return ahead
}

function joined(before: Ahead | undefined, after: Ahead, arrangements: number): Ahead {
  const [most, least, all] = [after.most + arrangements, after.least + arrangements, after.all + arrangements]
  if (!before) return { most, least, all }
  const greater = Math.max(before.all, all)
  return {
    most: Math.max(before.most, most),
    least: Math.min(before.least, least),
    all: greater + Math.log1p(Math.exp(Math.min(before.all, all) - greater)),
  }
}

/** The products of the lots so far, by what is left of the totals. */
type Open = Map<number, Map<number, Alike>>

type Walk = { endings: readonly LotEnding[][]; totals: Totals; ahead: Map<number, Ahead>[]; steps: () => void }

/** The chance of all outcomes whose product is at most `highest`, a logarithm. */
function chanceUpTo(highest: number, { endings, totals, ahead, steps }: Walk): number {
  const start = keyOf(totals, totals)
  const { most, all } = ahead[0]!.get(start)!
  if (most <= highest) return 1
  let chance = 0
  let open: Open = new Map([[start, new Map([[0, { product: 0, outcomes: 1 }]])]])
  for (const [index, own] of endings.entries()) {
    const next: Open = new Map()
    for (const { product, outcomes, at, after } of onward({ open, own, totals, ahead: ahead[index + 1]! })) {
      steps()
      if (product + after.most <= highest) chance += outcomes * Math.exp(product + after.all - all)
      else if (product + after.least <= highest) keep(next, at, { product, outcomes })
    }
    open = next
  }
  return Math.min(1, chance)
}

type Onward = { open: Open; own: readonly LotEnding[]; totals: Totals; ahead: Map<number, Ahead> }

/** Each set of outcomes so far with each ending of the next lot that leaves the rest a way to the totals. */
function* onward({ open, own, totals, ahead }: Onward): Generator<Alike & { at: number; after: Ahead }> {
  for (const [key, products] of open)
    for (const ending of own) {
      const at = keyAfter(key, ending, totals)
      const after = ahead.get(at)
      if (!after) continue
      for (const { product, outcomes } of products.values())
        yield { product: product + ending.arrangements, outcomes, at, after }
    }
}

/** What is left to the lots ahead; a number that no lot comes to where the ending is more than is left. */
function keyAfter(key: number, ending: LotEnding, totals: Totals): number {
  return key % (totals.found + 1) < ending.found ? -1 : key - keyOf(ending, totals)
}

/** Products that differ by less than a thousand-millionth are one: what they are asked is coarser. */
function keep(into: Open, at: number, { product, outcomes }: Alike): void {
  const products = into.get(at) ?? into.set(at, new Map()).get(at)!
  const name = Math.round(product * 1e9)
  const known = products.get(name)
  if (!known) products.set(name, { product, outcomes })
  else known.outcomes += outcomes * Math.exp(product - known.product)
}

function stepsUpTo(most: number): () => void {
  let left = most
  return () => {
    left -= 1
    if (left < 0) throw new TooManySteps(`lots must have outcomes that can be gone through in ${most} steps`)
  }
}
