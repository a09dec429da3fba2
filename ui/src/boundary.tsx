// A card that cannot be drawn is never left half on the glass.
import { Component, type ComponentChildren } from "preact";

interface BoundaryProps {
  /** A new one gives the drawing another try. */
  of: unknown;
  broken(fault: unknown): void;
  children: () => ComponentChildren;
}

export class Boundary extends Component<BoundaryProps, { failedOn: unknown }> {
  override state = { failedOn: null };

  override componentDidCatch(fault: unknown): void {
    this.setState({ failedOn: this.props.of });
    this.props.broken(fault);
  }

  override render() {
    return this.state.failedOn === this.props.of ? null : <Attempt draw={this.props.children} />;
  }
}

function Attempt({ draw }: { draw: () => ComponentChildren }) {
  return <>{draw()}</>;
}
