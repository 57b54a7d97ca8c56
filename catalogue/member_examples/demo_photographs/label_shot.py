def label_scene(chance, piece, shot, setting):
    raise NotImplementedError
