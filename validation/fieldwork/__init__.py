"""What measured cooks say of the model: scores, and the joint estimate of its universal numbers."""
