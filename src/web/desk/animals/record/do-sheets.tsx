import { DescribeSheet } from './describe-sheet.js';
import type { Doing, DoProps } from './doing.js';
import { ElsewhereSheet } from './elsewhere-sheet.js';
import { HoldSheet } from './hold-sheet.js';
import { LeaveSheet } from './leave-sheet.js';
import { MoveSheet } from './move-sheet.js';
import { ObserveSheet } from './observe-sheet.js';
import { OrderSheet } from './order-sheet.js';
import { WeighSheet } from './weigh-sheet.js';

const sheets: Readonly<Record<Doing, (props: DoProps) => React.ReactNode>> = {
  weigh: WeighSheet,
  observe: ObserveSheet,
  hold: HoldSheet,
  order: OrderSheet,
  elsewhere: ElsewhereSheet,
  move: MoveSheet,
  describe: DescribeSheet,
  leave: LeaveSheet,
};

export function DoSheets({ doing, ...props }: DoProps & { doing: Doing }) {
  const Chosen = sheets[doing];
  return <Chosen {...props} />;
}
