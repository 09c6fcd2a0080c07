// The root of a continuous function between two points where its sign differs.

/**
 * Where a continuous function crosses zero, to the last digits of the argument; it may be infinite at the ends.
 *
 * Inverse quadratic steps where the last three points allow them, else halving: never more than 200 evaluations, as a
 * rule about twelve.
 *
 * @returns the point of the least |value| seen; the nearer end where the function has one sign throughout
 *
 * Source: T. R. Chandrupatla (1997), Advances in Engineering Software 28, 145–149 (from memory).
 */
export function rootBetween(low: number, high: number, value: (x: number) => number): number {
  let near = { x: low, y: value(low) }
  let far = { x: high, y: value(high) }
  if (Math.sign(near.y) === Math.sign(far.y)) return Math.abs(near.y) <= Math.abs(far.y) ? near.x : far.x
  let share = 0.5
  for (let step = 0; step < 200; step++) {
    const x = near.x + share * (far.x - near.x)
    const point = { x, y: value(x) }
    const previous = Math.sign(point.y) === Math.sign(near.y) ? near : far
    if (previous === near) near = point
    else {
      far = near
      near = point
    }
    const best = Math.abs(near.y) < Math.abs(far.y) ? near : far
    const least = (2 * Number.EPSILON * Math.abs(best.x) + Number.MIN_VALUE) / Math.abs(far.x - near.x)
    if (best.y === 0 || least > 0.5) return best.x
    share = Math.min(1 - least, Math.max(least, nextShare(near, far, previous)))
  }
  return near.x
}

type Point = { x: number; y: number }

/** How far to go from `near` towards `far`, as a share of the way. */
function nextShare(near: Point, far: Point, previous: Point): number {
  const xi = (near.x - far.x) / (previous.x - far.x)
  const phi = (near.y - far.y) / (previous.y - far.y)
  if (!(phi ** 2 < xi && (1 - phi) ** 2 < 1 - xi)) return 0.5
  const first = (near.y / (far.y - near.y)) * (previous.y / (far.y - previous.y))
  const second =
    ((previous.x - near.x) / (far.x - near.x)) * (near.y / (previous.y - near.y)) * (far.y / (previous.y - far.y))
  return Number.isFinite(first + second) ? first + second : 0.5
}
