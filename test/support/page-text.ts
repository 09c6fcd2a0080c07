// What a reader reads of a page: its text in order, without marks and pictures' inner text.

const entities: Record<string, string> = { '&lt;': '<', '&gt;': '>', '&quot;': '"', '&#39;': "'", '&amp;': '&' }

/** The text of a page, each run of white space one space. */
export function textOf(html: string): string {
  return html
    .replace(/<(script|style|svg|title)\b.*?<\/\1>/gs, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&(lt|gt|quot|#39|amp);/g, (entity) => entities[entity] ?? entity)
    .replace(/\s+/g, ' ')
    .replace(/ ([.,;:)])/g, '$1')
    .trim()
}

/** The numbers of a table's row whose first cell begins so, cell by cell. */
export function rowOf(html: string, name: string): string[] {
  const rows = [...html.matchAll(/<tr\b.*?<\/tr>/gs)].map((row) =>
    [...row[0].matchAll(/<t[hd]\b[^>]*>(.*?)<\/t[hd]>/gs)].map((cell) => textOf(cell[1] ?? '')),
  )
  const row = rows.find((cells) => cells[0]?.includes(name))
  if (!row) throw new Error(`There is no row ${name}; there are ${rows.map((cells) => cells[0]).join(' | ')}`)
  return row
}
