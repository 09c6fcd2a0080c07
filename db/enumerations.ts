// Values that later steps add to an enumeration stand in it from its creation where one transaction does both.

const creation = /CREATE TYPE ("public"\."\w+") AS ENUM\(([^)]*)\)/g
const addition = /ALTER TYPE ("public"\."\w+") ADD VALUE ('[^']*')(?: (BEFORE|AFTER) ('[^']*'))?/

/**
 * The statement to be carried out in place of each; none where the value stands already. Before version 17 PostgreSQL lets nobody
 * use a value in the transaction that added it to a type, and a restore writes schema and rows in one; a value of CREATE TYPE may be used at once.
 *
 * @param statements all that one transaction carries out, in their order
 */
export function valuesFromCreation(statements: readonly string[]): (statement: string) => string | undefined {
  const values = valuesOf(statements)
  return (statement) => {
    const added = addition.exec(statement)
    if (added && values.has(added[1] ?? '')) return undefined
    return statement.replace(
      creation,
      (whole, type: string) => `CREATE TYPE ${type} AS ENUM(${values.get(type)?.join(', ') ?? whole})`,
    )
  }
}

/** Of each type that is created, its values with those added later, in the order that they end up in. */
function valuesOf(statements: readonly string[]): Map<string, string[]> {
  const values = new Map<string, string[]>()
  for (const statement of statements) {
    for (const [, type = '', list = ''] of statement.matchAll(creation))
      values.set(
        type,
        list.split(',').map((value) => value.trim()),
      )
    const [, type = '', value = '', place, beside = ''] = addition.exec(statement) ?? []
    const known = values.get(type)
    if (!known) continue
    const at = place === undefined ? known.length : known.indexOf(beside) + (place === 'AFTER' ? 1 : 0)
    known.splice(at, 0, value)
  }
  return values
}
