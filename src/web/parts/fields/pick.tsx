import {
  Button,
  ComboBox,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Select,
  SelectValue,
  Text,
} from 'react-aria-components';
import { say } from '../../../words/say.js';
import type { Option } from './choices.js';

interface PickProps<T extends string> {
  readonly label: string;
  readonly options: readonly Option<T>[];
  readonly value: T | null;
  readonly onChange: (value: T) => void;
  readonly hint?: string;
  readonly narrow?: boolean;
  readonly disabled?: boolean;
}

/** One of a list that opens: sections, people, products. */
export function Pick<T extends string>({
  label,
  options,
  value,
  onChange,
  hint,
  narrow,
  disabled = false,
}: PickProps<T>) {
  return (
    <Select
      className={narrow ? 'field narrow' : 'field'}
      value={value}
      isDisabled={disabled}
      placeholder={say('parts.pick')}
      onChange={(key) => choose(options, key, onChange)}
    >
      <Label className="label">{label}</Label>
      <Button className="select-button">
        <SelectValue>{({ selectedText }) => selectedText ?? say('parts.pick')}</SelectValue>
        <span aria-hidden="true">▾</span>
      </Button>
      {hint === undefined ? null : (
        <Text slot="description" className="hint">
          {hint}
        </Text>
      )}
      <Popover className="popover">
        <ListBox className="list-box" items={[...options]}>
          {row}
        </ListBox>
      </Popover>
    </Select>
  );
}

/** One of a long list, found by typing part of its name. */
export function FindOne<T extends string>({ label, options, value, onChange, hint, narrow }: PickProps<T>) {
  return (
    <ComboBox
      className={narrow ? 'field narrow' : 'field'}
      defaultItems={options}
      selectedKey={value}
      onSelectionChange={(key) => choose(options, key, onChange)}
      menuTrigger="focus"
    >
      <Label className="label">{label}</Label>
      <div className="combo">
        <Input />
        <Button className="btn">▾</Button>
      </div>
      {hint === undefined ? null : (
        <Text slot="description" className="hint">
          {hint}
        </Text>
      )}
      <Popover className="popover">
        <ListBox className="list-box">{row}</ListBox>
      </Popover>
    </ComboBox>
  );
}

const row = (option: Option) => (
  <ListBoxItem id={option.id} textValue={option.label} className="list-option" isDisabled={option.disabled ?? false}>
    <span>{option.label}</span>
    {option.note === undefined ? null : <span className="soft small">{option.note}</span>}
  </ListBoxItem>
);

function choose<T extends string>(options: readonly Option<T>[], key: unknown, onChange: (value: T) => void): void {
  const option = options.find((one) => one.id === key);
  if (option !== undefined) onChange(option.id);
}
