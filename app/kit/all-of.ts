// Pieces of work that go on at once, and end as if each had waited for the one before it.

/**
 * Waits until all have ended, then returns what they made; where some failed, throws the failure of the first of them in this
 * order, whichever came first in time. Statements of one transaction that are made at once go to the database in one trip.
 */
export async function allOf<const Works extends readonly unknown[]>(
  works: Works,
): Promise<{ -readonly [At in keyof Works]: Awaited<Works[At]> }> {
  await Promise.allSettled(works)
  return Promise.all(works)
}
