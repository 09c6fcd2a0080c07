// Single sampling plans for normal inspection: n, then acceptance/rejection number under each acceptance quality limit.
import { rowsOf, type Table } from './table.ts'

export const singleNormal: Table = {
  title: 'Single sampling, normal inspection',
  source:
    'MIL-STD-105E (10 May 1989), Table II-A. Read: the sequence of numbers of every row, and the position of every ' +
    'cell for letters A to Q at 0.65 to 10. The other positions follow from the rows by the diagonal rule of the table',
  read: [{ letters: ['A', 'Q'], limits: ['0.65', '10'] }],
  otherwise: 'derived',
  rows: rowsOf(`
     n  0.010 0.015 0.025 0.040 0.065 0.10 0.15 0.25  0.40  0.65  1.0   1.5   2.5   4.0   6.5   10
A    2  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓     ↓     ↓     ↓     ↓     ↓     ↓     0/1   ↓
B    3  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓     ↓     ↓     ↓     ↓     ↓     0/1   ↑     ↓
C    5  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓     ↓     ↓     ↓     ↓     0/1   ↑     ↓     1/2
D    8  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓     ↓     ↓     ↓     0/1   ↑     ↓     1/2   2/3
E   13  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓     ↓     ↓     0/1   ↑     ↓     1/2   2/3   3/4
F   20  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓     ↓     0/1   ↑     ↓     1/2   2/3   3/4   5/6
G   32  ↓     ↓     ↓     ↓     ↓     ↓    ↓    ↓     0/1   ↑     ↓     1/2   2/3   3/4   5/6   7/8
H   50  ↓     ↓     ↓     ↓     ↓     ↓    ↓    0/1   ↑     ↓     1/2   2/3   3/4   5/6   7/8   10/11
J   80  ↓     ↓     ↓     ↓     ↓     ↓    0/1  ↑     ↓     1/2   2/3   3/4   5/6   7/8   10/11 14/15
K  125  ↓     ↓     ↓     ↓     ↓     0/1  ↑    ↓     1/2   2/3   3/4   5/6   7/8   10/11 14/15 21/22
L  200  ↓     ↓     ↓     ↓     0/1   ↑    ↓    1/2   2/3   3/4   5/6   7/8   10/11 14/15 21/22 ↑
M  315  ↓     ↓     ↓     0/1   ↑     ↓    1/2  2/3   3/4   5/6   7/8   10/11 14/15 21/22 ↑     ↑
N  500  ↓     ↓     0/1   ↑     ↓     1/2  2/3  3/4   5/6   7/8   10/11 14/15 21/22 ↑     ↑     ↑
P  800  ↓     0/1   ↑     ↓     1/2   2/3  3/4  5/6   7/8   10/11 14/15 21/22 ↑     ↑     ↑     ↑
Q 1250  0/1   ↑     ↓     1/2   2/3   3/4  5/6  7/8   10/11 14/15 21/22 ↑     ↑     ↑     ↑     ↑
R 2000  ↑     ↑     1/2   2/3   3/4   5/6  7/8  10/11 14/15 21/22 ↑     ↑     ↑     ↑     ↑     ↑
`),
}
