// Single sampling plans for reduced inspection, with the gap between acceptance and rejection number of the 1989 edition.
import { rowsOf, type Table } from './table.ts'

export const singleReduced: Table = {
  title: 'Single sampling, reduced inspection',
  source:
    'MIL-STD-105E (10 May 1989), Table II-C, from memory by the diagonal rule of the table. Between the acceptance ' +
    'and the rejection number the lot is accepted and the next lot goes back to normal inspection',
  read: [],
  otherwise: 'recalled',
  rows: rowsOf(`
     n  0.010 0.015 0.025 0.040 0.065 0.10 0.15 0.25 0.40 0.65  1.0   1.5   2.5   4.0   6.5   10
A    2  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓    ↓     ↓     ↓     ↓     ↓     0/1   ↓
B    2  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓    ↓     ↓     ↓     ↓     0/1   ↑     ↓
C    2  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓    ↓     ↓     ↓     0/1   ↑     ↓     0/2
D    3  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓    ↓     ↓     0/1   ↑     ↓     0/2   1/3
E    5  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓    ↓     0/1   ↑     ↓     0/2   1/3   1/4
F    8  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    ↓    0/1   ↑     ↓     0/2   1/3   1/4   2/5
G   13  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓    0/1  ↑     ↓     0/2   1/3   1/4   2/5   3/6
H   20  ↓     ↓     ↓     ↓     ↓     ↓    ↓    0/1  ↑    ↓     0/2   1/3   1/4   2/5   3/6   5/8
J   32  ↓     ↓     ↓     ↓     ↓     ↓    0/1  ↑    ↓    0/2   1/3   1/4   2/5   3/6   5/8   7/10
K   50  ↓     ↓     ↓     ↓     ↓     0/1  ↑    ↓    0/2  1/3   1/4   2/5   3/6   5/8   7/10  10/13
L   80  ↓     ↓     ↓     ↓     0/1   ↑    ↓    0/2  1/3  1/4   2/5   3/6   5/8   7/10  10/13 ↑
M  125  ↓     ↓     ↓     0/1   ↑     ↓    0/2  1/3  1/4  2/5   3/6   5/8   7/10  10/13 ↑     ↑
N  200  ↓     ↓     0/1   ↑     ↓     0/2  1/3  1/4  2/5  3/6   5/8   7/10  10/13 ↑     ↑     ↑
P  315  ↓     0/1   ↑     ↓     0/2   1/3  1/4  2/5  3/6  5/8   7/10  10/13 ↑     ↑     ↑     ↑
Q  500  0/1   ↑     ↓     0/2   1/3   1/4  2/5  3/6  5/8  7/10  10/13 ↑     ↑     ↑     ↑     ↑
R  800  ↑     ↑     0/2   1/3   1/4   2/5  3/6  5/8  7/10 10/13 ↑     ↑     ↑     ↑     ↑     ↑
`),
}
