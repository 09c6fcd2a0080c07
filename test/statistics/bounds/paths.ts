// All ways an inspection can go, counted unit by unit in whole numbers: the yardstick of the bounds after an early stop.
import type { Stages } from '../../../app/statistics/plans/plan.ts'

/** An end of a plan and the number of orders of good and bad units that lead to it. */
export type PathEnd = { stage: number; tested: number; found: number; orders: bigint }

/** Every end of a plan that some order of units leads to. */
export function endsOf(plan: Stages): PathEnd[] {
  const ends: PathEnd[] = []
  let open = new Map([[0, 1n]])
  let tested = 0
  for (const [index, { sampleSize, acceptanceNumber, rejectionNumber }] of plan.stages.entries()) {
    for (; tested < sampleSize; tested++) {
      const next = new Map<number, bigint>()
      for (const [found, orders] of open)
        for (const now of [found, found + 1]) next.set(now, (next.get(now) ?? 0n) + orders)
      open = next
    }
    for (const [found, orders] of [...open])
      if (found <= acceptanceNumber || found >= rejectionNumber) {
        ends.push({ stage: index + 1, tested, found, orders })
        open.delete(found)
      }
  }
  return ends
}

/** Chance of an end when each unit is nonconforming with probability p. */
export function ofProcess({ orders, found, tested }: PathEnd, p: number): number {
  return Number(orders) * p ** found * (1 - p) ** (tested - found)
}

/** Chance of an end in a lot: its orders, times the ways to place the nonconforming units that were not seen. */
export function ofLot({ orders, found, tested }: PathEnd, lotSize: number, nonconforming: number): number {
  const unseen = choose(lotSize - tested, nonconforming - found)
  return Number((orders * unseen * 10n ** 30n) / choose(lotSize, nonconforming)) / 1e30
}

function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n
  let ways = 1n
  for (let i = 1; i <= k; i++) ways = (ways * BigInt(n - k + i)) / BigInt(i)
  return ways
}
