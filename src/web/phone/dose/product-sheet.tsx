import type { Product } from '../../../core/dosing/formulary.js';
import type { ProductId } from '../../../core/ids.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Sheet } from '../../parts/sheet.js';

interface ProductSheetProps {
  readonly products: readonly Product[];
  readonly value: ProductId;
  readonly onChoose: (id: ProductId) => void;
  readonly onClose: () => void;
}

export function ProductSheet({ products, value, onChoose, onClose }: ProductSheetProps) {
  return (
    <Sheet title={say('round.give.choose-product')} open onClose={onClose}>
      <ChooseOne
        label={say('round.give.products')}
        options={products.map((product) => ({ id: product.id, label: product.name, note: product.route }))}
        value={value}
        onChange={onChoose}
        big
      />
      <Act size="mid" onAct={onClose}>
        {say('round.back')}
      </Act>
    </Sheet>
  );
}
