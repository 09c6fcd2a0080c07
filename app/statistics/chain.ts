// Markov chains over a few hundred states, solved by elimination without a single subtraction, so that rare events keep their digits.

/**
 * A chain: `step[i * size + j]` is the chance to go from state i to j, `end[i]` the chance that the chain ends from i. No step goes down
 * by more than `down` states; where that is few, the work grows with the size alone (size − 1 says nothing).
 */
export type Chain = {
  readonly size: number
  readonly step: Float64Array
  readonly end: Float64Array
  readonly down: number
}

/**
 * Expected number of steps until the chain ends, from each state; Infinity where it may never end.
 *
 * States are eliminated from the last to the first, each replaced by the paths through it. What leaves a state is summed
 * from its parts and never taken as 1 − what stays, so every result keeps nearly all its digits, however rare the end is.
 *
 * @param chain rows of chances that sum to 1 together with `end`; the step chances are overwritten
 *
 * Source: W. K. Grassmann, M. I. Taksar and D. P. Heyman (1985), Operations Research 33, 1107–1116 (from memory), for ending chains.
 */
export function expectedSteps(chain: Chain): Float64Array {
  const { size, step, down } = chain
  const time = new Float64Array(size).fill(1)
  const leaving = new Float64Array(size)
  for (let k = size - 1; k >= 0; k--) eliminate(chain, k, { time, leaving })
  for (let k = 0; k < size; k++) {
    let total = time[k]!
    for (let j = Math.max(0, k - down); j < k; j++) if (step[k * size + j]! > 0) total += step[k * size + j]! * time[j]!
    time[k] = total === Number.POSITIVE_INFINITY ? total : total / leaving[k]!
  }
  return time
}

type Kept = { time: Float64Array; leaving: Float64Array }

/** Replaces state k by the paths through it from the states before. */
function eliminate({ size, step, end, down }: Chain, k: number, { time, leaving }: Kept): void {
  const from = Math.max(0, k - down)
  let out = end[k]!
  for (let j = from; j < k; j++) out += step[k * size + j]!
  leaving[k] = out
  if (out === 0) time[k] = Number.POSITIVE_INFINITY
  for (let i = 0; i < k; i++) {
    const into = step[i * size + k]!
    if (into === 0) continue
    time[i]! += out === 0 ? Number.POSITIVE_INFINITY : into * (time[k]! / out)
    if (out === 0) continue
    const through = into / out
    end[i]! += through * end[k]!
    for (let j = from; j < k; j++) step[i * size + j]! += through * step[k * size + j]!
  }
}

/**
 * Long-run share of steps spent in each state, by the same elimination. States that the chain leaves for good have none.
 *
 * @param chain without ends, with one closed class of states; the step chances are overwritten
 */
export function longRunShares({ size, step }: Pick<Chain, 'size' | 'step'>): Float64Array {
  const states = closedClass(size, step)
  const leaving = new Float64Array(size)
  for (let a = states.length - 1; a > 0; a--) {
    const k = states[a]!
    for (let b = 0; b < a; b++) leaving[k]! += step[k * size + states[b]!]!
    for (let b = 0; b < a; b++) {
      const through = step[states[b]! * size + k]! / leaving[k]!
      if (through === 0) continue
      for (let c = 0; c < a; c++) step[states[b]! * size + states[c]!]! += through * step[k * size + states[c]!]!
    }
  }
  const share = new Float64Array(size)
  share[states[0]!] = 1
  let total = 1
  for (let a = 1; a < states.length; a++) {
    const k = states[a]!
    for (let b = 0; b < a; b++) share[k]! += (share[states[b]!]! * step[states[b]! * size + k]!) / leaving[k]!
    total += share[k]!
  }
  return share.map((each) => each / total)
}

/** The states that the chain never leaves once it is in: those from which the fewest states can be reached. */
function closedClass(size: number, step: Float64Array): number[] {
  let fewest: number[] = []
  for (let from = 0; from < size; from++) {
    const reached = reachedFrom(from, size, step)
    if (fewest.length === 0 || reached.length < fewest.length) fewest = reached
  }
  return fewest
}

function reachedFrom(from: number, size: number, step: Float64Array): number[] {
  const seen = new Set([from])
  for (const i of seen) for (let j = 0; j < size; j++) if (step[i * size + j]! > 0) seen.add(j)
  return [...seen]
}
