import type { ReactNode } from 'react';
import { Checkbox, CheckboxGroup, Label, Radio, RadioGroup } from 'react-aria-components';

export interface Option<T extends string = string> {
  readonly id: T;
  readonly label: string;
  readonly note?: ReactNode;
  readonly disabled?: boolean;
}

interface OneProps<T extends string> {
  readonly label: string;
  readonly options: readonly Option<T>[];
  readonly value: T | null;
  readonly onChange: (value: T) => void;
  readonly big?: boolean;
  /** Side by side instead of one below the other. */
  readonly flow?: boolean;
}

export function ChooseOne<T extends string>({ label, options, value, onChange, big, flow }: OneProps<T>) {
  const taken = (id: string): void => {
    const option = options.find((one) => one.id === id);
    if (option !== undefined) onChange(option.id);
  };
  return (
    <RadioGroup className="field" value={value} onChange={taken}>
      <Label className="label">{label}</Label>
      <div className={`choices${big ? ' big' : ''}${flow ? ' flow' : ''}`}>
        {options.map((option) => (
          <Radio key={option.id} value={option.id} className="choice radio" isDisabled={option.disabled ?? false}>
            <Row option={option} />
          </Radio>
        ))}
      </div>
    </RadioGroup>
  );
}

interface SomeProps<T extends string> extends Omit<OneProps<T>, 'value' | 'onChange'> {
  readonly value: readonly T[];
  readonly onChange: (value: T[]) => void;
}

export function ChooseSome<T extends string>({ label, options, value, onChange, big, flow }: SomeProps<T>) {
  const taken = (ids: string[]): void => onChange(options.filter((one) => ids.includes(one.id)).map((one) => one.id));
  return (
    <CheckboxGroup className="field" value={[...value]} onChange={taken}>
      <Label className="label">{label}</Label>
      <div className={`choices${big ? ' big' : ''}${flow ? ' flow' : ''}`}>
        {options.map((option) => (
          <Checkbox key={option.id} value={option.id} className="choice" isDisabled={option.disabled ?? false}>
            <Row option={option} />
          </Checkbox>
        ))}
      </div>
    </CheckboxGroup>
  );
}

/** A single yes to tick. */
export function Tick({
  label,
  note,
  value,
  onChange,
}: {
  label: string;
  note?: ReactNode;
  value: boolean;
  onChange: (on: boolean) => void;
}) {
  return (
    <Checkbox className="choice" isSelected={value} onChange={onChange}>
      <Row option={{ id: 'tick', label, note }} />
    </Checkbox>
  );
}

function Row({ option }: { option: Option }) {
  return (
    <>
      <span className="mark" aria-hidden="true">
        <span className="tick-mark">✓</span>
      </span>
      <span>
        {option.label}
        {option.note === undefined ? null : <em>{option.note}</em>}
      </span>
    </>
  );
}
