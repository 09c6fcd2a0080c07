// A table of figures. On a narrow screen each row becomes a small block with its numbers named, so that nothing scrolls sideways.
import type { Child } from 'hono/jsx'

/** `short` is the number's name in a narrow block, where the head is not in sight; the head itself if it is plain text. */
export type TableColumn = { head: Child; short?: string; text?: boolean }
/** The first cell names the row. `picked`: the row that is recommended or chosen. */
export type TableRow = { cells: Child[]; picked?: boolean; id?: string }

/** `compact`: many rows of figures; `ways`: ways of testing, whose figures are never broken. */
type Props = { caption?: Child; columns: TableColumn[]; rows: TableRow[]; compact?: boolean; ways?: boolean }

export function DataTable({ caption, columns, rows, compact, ways }: Props) {
  return (
    <table class={`data${compact ? ' compact' : ''}${ways ? ' ways' : ''}`}>
      {caption && <caption>{caption}</caption>}
      <thead>
        <tr>
          {columns.map((column) => (
            <th scope="col" class={column.text ? 'text' : undefined}>
              {column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr id={row.id} class={row.picked ? 'pick' : undefined}>
            {row.cells.map((cell, at) => (
              <Cell cell={cell} column={columns[at]} first={at === 0} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Cell({ cell, column, first }: { cell: Child; column: TableColumn | undefined; first: boolean }) {
  if (first) return <th scope="row">{cell}</th>
  const name = column?.short ?? (typeof column?.head === 'string' ? column.head : '')
  return (
    <td data-label={name} class={column?.text ? 'text' : undefined}>
      {cell}
    </td>
  )
}
