import type { ReactNode } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';

interface Leaf {
  readonly id: string;
  readonly label: string;
  readonly body: ReactNode;
}

export function Leaves({ label, leaves }: { label: string; leaves: readonly Leaf[] }) {
  return (
    <Tabs>
      <TabList aria-label={label} className="tab-list no-print">
        {leaves.map((leaf) => (
          <Tab key={leaf.id} id={leaf.id} className="tab">
            {leaf.label}
          </Tab>
        ))}
      </TabList>
      {leaves.map((leaf) => (
        <TabPanel key={leaf.id} id={leaf.id} className="tab-panel">
          {leaf.body}
        </TabPanel>
      ))}
    </Tabs>
  );
}
