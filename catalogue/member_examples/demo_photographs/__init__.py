"""Pictures of the demo society's pieces, drawn so that the site can be seen as it will be with members' photographs.

`photograph.demo_photograph` draws one from what is recorded of a piece: its flat as a relief of cloth, with light from
one side, on something it lies on. Every picture says in itself that it is drawn. The same piece gives the same picture.
"""
