// A plan worked unit by unit in exact whole numbers: the definition of every measure, and nothing of the engine.

export type Stage = { sampleSize: number; acceptanceNumber: number; rejectionNumber: number }

/** Ways in which the next unit is nonconforming and conforming, after `tested` units of which `found` were not. */
type Ways = (tested: number, found: number) => { nonconforming: bigint; conforming: bigint }

export const lotOf = (lotSize: number, nonconforming: number): Ways => {
  return (tested, found) => ({
    nonconforming: BigInt(nonconforming - found),
    conforming: BigInt(lotSize - tested - nonconforming + found),
  })
}

/** A process in which `nonconforming` of `of` units are so, whatever came before. */
export const processOf = (nonconforming: number, of: number): Ways => {
  return () => ({ nonconforming: BigInt(nonconforming), conforming: BigInt(of - nonconforming) })
}

export type Exact = { acceptance: number; rejection: number; averageSampleSize: number; curtailed: number }

/** All orders of the units, counted; every chance is a count of orders over all of them. */
export function byOrders(stages: readonly Stage[], ways: Ways): Exact {
  const sums = { accepted: stages.length === 0 ? 1n : 0n, rejected: 0n, finished: 0n, curtailed: 0n }
  let all = 1n
  let undecided = new Map([[0, 1n]])
  let running = new Map([[0, 1n]])
  let tested = 0
  const scaled = (by: bigint) => {
    all *= by
    sums.accepted *= by
    sums.rejected *= by
    sums.finished *= by
    sums.curtailed *= by
  }
  for (const { sampleSize, acceptanceNumber, rejectionNumber } of stages) {
    sums.finished += total(undecided) * BigInt(sampleSize - tested)
    const stops = (found: number) => found >= rejectionNumber || found + sampleSize - tested <= acceptanceNumber
    for (;;) {
      for (const found of running.keys()) if (stops(found)) running.delete(found)
      if (tested === sampleSize) break
      sums.curtailed += total(running)
      const { nonconforming, conforming } = ways(tested, 0)
      scaled(nonconforming + conforming)
      undecided = oneMore(undecided, ways, tested)
      running = oneMore(running, ways, tested)
      tested++
    }
    for (const [found, orders] of undecided) {
      if (found > acceptanceNumber && found < rejectionNumber) continue
      if (found <= acceptanceNumber) sums.accepted += orders
      else sums.rejected += orders
      undecided.delete(found)
    }
  }
  const share = (count: bigint) => Number((count * 10n ** 90n) / all) / 1e90
  return {
    acceptance: share(sums.accepted),
    rejection: share(sums.rejected),
    averageSampleSize: share(sums.finished),
    curtailed: share(sums.curtailed),
  }
}

function oneMore(orders: Map<number, bigint>, ways: Ways, tested: number): Map<number, bigint> {
  const next = new Map<number, bigint>()
  for (const [found, count] of orders) {
    const { nonconforming, conforming } = ways(tested, found)
    if (nonconforming > 0n) next.set(found + 1, (next.get(found + 1) ?? 0n) + count * nonconforming)
    if (conforming > 0n) next.set(found, (next.get(found) ?? 0n) + count * conforming)
  }
  return next
}

function total(orders: Map<number, bigint>): bigint {
  let sum = 0n
  for (const count of orders.values()) sum += count
  return sum
}
