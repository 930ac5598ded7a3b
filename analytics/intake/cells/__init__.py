"""The text of a cell as any program wrote it -> the contract's own form -> a typed value."""
